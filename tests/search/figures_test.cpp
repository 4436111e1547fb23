#include <catch2/catch.hpp>

#include "foretone/search/best.hpp"
#include "foretone/search/chance.hpp"
#include "foretone/search/coats.hpp"

using namespace foretone;

TEST_CASE("the chance that a client sees a difference is the share of draws beyond the threshold") {
    // Greys at L* 50: ΔE00 of a step ΔL* is |ΔL*|/S_L, and S_L is 1 at a mean of 50 (Sharma, Wu & Dalal 2005, equation
    // 15).
    const color::Lab target{50, 0, 0};
    const std::vector<color::Lab> draws = {{50, 0, 0}, {51.9, 0, 0}, {52.1, 0, 0}, {47.5, 0, 0}};
    CHECK(search::chance_beyond(2, target, draws) == 0.5);
    CHECK(search::chance_beyond(0, target, draws) == 0.75);
    CHECK(search::chance_beyond(10, target, draws) == 0);
    CHECK_THROWS_AS(search::chance_beyond(2, target, {}), std::invalid_argument);
}

TEST_CASE("the verdict on coats: nearest, settled, within the spread") {
    const auto v = search::coats_verdict(
        {{{}, 7, 1}, {{3}, 4, 1}, {{5, 2}, 1.9, 2}, {{5.5, 2.9, 0.9}, 1.0, 2}, {{5.7, 3, 0.95, 0.5}, 1.0, 2}});
    CHECK(v.nearest == 3);
    CHECK(v.within == 2);
    CHECK(v.settled == 2);
    const auto open = search::coats_verdict({{{}, {}, 1}, {{3}, {}, 1}});
    CHECK_FALSE(open.nearest);
    CHECK_FALSE(open.within);
    CHECK_FALSE(open.settled);
    CHECK(search::coats_verdict({{{}, {}, 1}, {{0.2}, {}, 1}}).settled == 0);
    // Coats of 0.6 each: none is seen by itself, two of them are.
    CHECK(search::coats_verdict({{{}, {}, 1}, {{0.6}, {}, 1}, {{1.2, 0.6}, {}, 1}, {{1.8, 1.2, 0.6}, {}, 1}}).settled ==
          2);
    CHECK_THROWS_AS(search::coats_verdict({}), std::invalid_argument);
}

TEST_CASE("the front holds what no recipe beats in closeness, steps and colorants at once") {
    search::Best best(2);
    best.offer(1, 0, {5, 1});
    best.offer(2, 0, {3, 2});
    best.offer(2, 1, {3, 3});  // no closer than number 2, and a colorant more
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
