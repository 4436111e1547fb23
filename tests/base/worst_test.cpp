// The suite's own helper for the worst of many: a check that skips NaN cannot fail.

#include <cmath>
#include <limits>
#include <vector>

#include <catch2/catch.hpp>

#include "support/tolerance.hpp"

using namespace foretone::test;

namespace {
constexpr double none = std::numeric_limits<double>::quiet_NaN();

double worst_with_place(const std::vector<double>& all, std::size_t& at) {
    double worst = 0;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (worse(all[i], worst)) worst = all[i], at = i;
    return worst;
}
}  // namespace

TEST_CASE("the worst of many is the largest, and NaN wherever one is") {
    CHECK(worst_of(1, 2) == 2);
    CHECK(worst_of(2, 1) == 2);
    CHECK(worst_of({-3, -1, -2}) == -1);
    CHECK(least_of(1, 2) == 1);
    CHECK(least_of({-1, -3, -2}) == -3);
    CHECK(std::isnan(worst_of(none, 2)));
    CHECK(std::isnan(worst_of(2, none)));
    CHECK(std::isnan(least_of(none, 2)));
    CHECK(std::isnan(least_of(2, none)));
    for (std::size_t k = 0; k < 3; ++k) {
        double v[] = {1, 2, 3};
        v[k] = none;
        INFO("NaN at place " << k);
        CHECK(std::isnan(worst_of({v[0], v[1], v[2]})));
        CHECK(std::isnan(least_of({v[0], v[1], v[2]})));
    }
}

TEST_CASE("a loop that keeps the place of the worst keeps that of the first NaN, and fails by it") {
    std::size_t at = 9;
    CHECK(worst_with_place({0.1, 0.3, 0.2}, at) == 0.3);
    CHECK(at == 1);
    const double worst = worst_with_place({0.1, none, 5, none}, at);
    CHECK(std::isnan(worst));
    CHECK(at == 1);
    CHECK_FALSE(worst < 1e300);
    CHECK_FALSE(Near(0, 1e300).match(worst));
}
