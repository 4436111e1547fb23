#include <catch2/catch.hpp>

#include <cmath>

#include "color/seeded.hpp"
#include "foretone/color/lab.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone::color;
using namespace foretone::test;

TEST_CASE("CIEDE2000 gives all 34 published pairs, in both orders") {
    // Sharma, Wu & Dalal 2005, Table 1, printed to four decimals; the second column is the same formula with more
    // digits.
    const auto rows = table("ciede2000_sharma_2005.csv");
    REQUIRE(rows.size() == 34);
    for (const auto& r : rows) {
        INFO("pair " << r.text("pair"));
        const Lab p{r.number("L1"), r.number("a1"), r.number("b1")}, q{r.number("L2"), r.number("a2"), r.number("b2")};
        CHECK_THAT(delta_e_00(p, q), Near(r.number("dE00_published"), table_digits));
        CHECK_THAT(delta_e_00(p, q), Near(r.number("dE00_computed"), 1e-6));  // printed to six decimals
        CHECK(delta_e_00(p, q) == delta_e_00(q, p));
    }
}

TEST_CASE("both color differences are symmetric, zero only for equal colors, never negative") {
    Seeded seed(1);
    int asymmetric = 0, not_positive = 0;
    for (int i = 0; i < 10000; ++i) {
        const Lab p = seed.lab(), q = seed.lab();
        if (delta_e_00(p, q) != delta_e_00(q, p) || delta_e_ab(p, q) != delta_e_ab(q, p)) ++asymmetric;
        if (!(delta_e_00(p, q) > 0) || delta_e_00(p, p) != 0 || delta_e_ab(p, p) != 0) ++not_positive;
    }
    CHECK(asymmetric == 0);
    CHECK(not_positive == 0);
}

TEST_CASE("for greys CIEDE2000 is the lightness step over its weight") {
    // Closed form: S_L = 1 + 0.015 (L − 50)²/√(20 + (L − 50)²) at the mean lightness; at L = 50 it is 1.
    CHECK_THAT(delta_e_00({49, 0, 0}, {51, 0, 0}), Near(2, closed_form));
    const double sl = 1 + 0.015 * 900 / std::sqrt(920.0);
    CHECK_THAT(delta_e_00({79, 0, 0}, {81, 0, 0}), Near(2 / sl, closed_form));
}

TEST_CASE("the 1976 difference is the straight distance") {
    CHECK_THAT(delta_e_ab({50, 0, 0}, {52, 3, -6}), Near(7, identity));
}
