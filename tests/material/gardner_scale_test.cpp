/// The Gardner scale between and at its printed numbers.

#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/material/gardner.hpp"
#include "support/tolerance.hpp"

using foretone::material::gardner_absorbance_per_cm;
using foretone::material::gardner_fit;
using foretone::test::closed_form;
using foretone::test::identity;
using foretone::test::Near;

TEST_CASE("halfway between two numbers the strength is their geometric mean and the width their mean") {
    for (int n = 1; n < 18; ++n) {
        const auto low = gardner_fit(n), high = gardner_fit(n + 1), half = gardner_fit(n + 0.5);
        INFO("Gardner " << n << ".5");
        CHECK_THAT(half.a450_per_cm, Near(std::sqrt(low.a450_per_cm * high.a450_per_cm), identity));
        CHECK_THAT(half.width_nm, Near((low.width_nm + high.width_nm) / 2, identity));
    }
}

TEST_CASE("the scale has no jump at a number") {
    for (int n = 2; n < 18; ++n) {
        const auto below = gardner_fit(n - 1e-9), at = gardner_fit(n), above = gardner_fit(n + 1e-9);
        INFO("Gardner " << n);
        CHECK_THAT(below.a450_per_cm, Near(at.a450_per_cm, 1e-7));
        CHECK_THAT(above.a450_per_cm, Near(at.a450_per_cm, 1e-7));
        CHECK_THAT(below.width_nm, Near(at.width_nm, 1e-6));
        CHECK_THAT(above.width_nm, Near(at.width_nm, 1e-6));
    }
}

TEST_CASE("absorbance is the fitted exponential: its value at 450 nm, one e-th of it a width further on") {
    for (const double n : {1.0, 4.5, 11.0, 18.0}) {
        const auto f = gardner_fit(n);
        const auto a = gardner_absorbance_per_cm(n);
        INFO("Gardner " << n);
        CHECK_THAT(a[14], Near(f.a450_per_cm, identity));  // 380 + 14 · 5 = 450 nm
        for (std::size_t i = 0; i + 1 < a.size(); ++i)
            CHECK_THAT(std::log(a[i] / a[i + 1]), Near(5 / f.width_nm, closed_form));
    }
}

TEST_CASE("a darker number never absorbs less blue, and the darkest a hundred times what the palest does") {
    for (int n = 2; n <= 18; ++n) {
        INFO("Gardner " << n);
        CHECK(gardner_fit(n).a450_per_cm >= gardner_fit(n - 1).a450_per_cm);
    }
    CHECK(gardner_fit(18).a450_per_cm > 100 * gardner_fit(1).a450_per_cm);
}

TEST_CASE("what is outside the scale is told with the number read and the scale's ends") {
    CHECK_THROWS_WITH(gardner_fit(0), Catch::Contains("1 to 18") && Catch::Contains("not 0"));
    CHECK_THROWS_WITH(gardner_fit(22.5), Catch::Contains("22.5"));
    CHECK_THROWS_AS(gardner_absorbance_per_cm(INFINITY), std::invalid_argument);
    CHECK_THROWS_AS(gardner_absorbance_per_cm(-INFINITY), std::invalid_argument);
}
