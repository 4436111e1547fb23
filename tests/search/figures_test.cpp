#include <catch2/catch.hpp>

#include "foretone/search/best.hpp"
#include "foretone/search/chance.hpp"
#include "foretone/search/coats.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("the chance beyond a distance is that of the chi distribution with three degrees of freedom") {
    // Computed from the chi-squared distribution with 3 degrees of freedom, table value: P(chi² > 7.815) = 0.05 (any table of it, four digits).
    CHECK_THAT(search::chance_beyond(std::sqrt(7.815), 0, std::sqrt(3.0)), Near(0.05, table_digits));
    CHECK_THAT(search::chance_beyond(2, 1e-5, 1), Near(search::chance_beyond(2, 1e-3, 1), quadrature));  // the limit m → 0 joins on
    CHECK(search::chance_beyond(2, 3, 0) == 1);
    CHECK(search::chance_beyond(2, 1, 0) == 0);
    CHECK(search::chance_beyond(2, 8, 1) > 0.999);
    CHECK_THROWS_AS(search::chance_beyond(2, -1, 1), std::invalid_argument);
    double before = 0;
    bool rises = true;
    for (double d = 0; d < 6; d += 0.1) {
        const double p = search::chance_beyond(2, d, 1.3);
        rises = rises && p >= before;
        before = p;
    }
    CHECK(rises);
}

TEST_CASE("the verdict on coats: nearest, settled, within the spread") {
    const auto v = search::coats_verdict({{0, 7, 1}, {3, 4, 1}, {2, 1.9, 2}, {0.9, 1.0, 2}, {0.5, 1.0, 2}});
    CHECK(v.nearest == 3);
    CHECK(v.within == 2);
    CHECK(v.settled == 2);
    const auto open = search::coats_verdict({{0, {}, 1}, {3, {}, 1}});
    CHECK_FALSE(open.nearest);
    CHECK_FALSE(open.within);
    CHECK_FALSE(open.settled);
    CHECK(search::coats_verdict({{0, {}, 1}, {0.2, {}, 1}}).settled == 0);
    CHECK_THROWS_AS(search::coats_verdict({}), std::invalid_argument);
}

TEST_CASE("the front holds what no recipe beats in closeness, steps and colorants at once") {
    search::Best best(2);
    best.offer(1, 0, {5, 1});
    best.offer(2, 0, {3, 2});
    best.offer(2, 1, {3, 3});    // no closer than number 2, and a colorant more
    best.offer(3, 1, {1, 4});
    best.offer(3, 1, {0.5, 5});
    best.offer(3, 1, {0.7, 6});  // pushes number 4 out
    best.offer(4, 2, {0.4, 7});
    std::vector<std::uint64_t> front, all;
    for (const auto& f : best.front()) front.push_back(f.number);
    for (const auto& f : best.closest(4)) all.push_back(f.number);
    CHECK(front == std::vector<std::uint64_t>{7, 5, 2, 1});
    CHECK(all == std::vector<std::uint64_t>{7, 5, 6, 2});
    CHECK(best.limit(3, 1) == 0.7);
    CHECK(best.limit(1, 1) > 1e300);
}
