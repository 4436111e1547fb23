#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "color/seeded.hpp"
#include "foretone/color/lab.hpp"
#include "support/tolerance.hpp"

using namespace foretone::color;
using namespace foretone::test;

namespace {
const Xyz d65{95.047, 100, 108.883};
}

TEST_CASE("white is 100, 0, 0 and black is 0, 0, 0") {
    const Lab w = to_lab(d65, d65), k = to_lab({0, 0, 0}, d65);
    CHECK_THAT(w.l, Near(100, identity));
    CHECK_THAT(w.a, Near(0, identity));
    CHECK_THAT(w.b, Near(0, identity));
    CHECK_THAT(k.l, Near(0, identity));
    CHECK_THAT(k.a, Near(0, identity));
    CHECK_THAT(k.b, Near(0, identity));
}

TEST_CASE("lightness follows its two branches and joins them") {
    // ISO/CIE 11664-4: L* = 116 (Y/Yn)^(1/3) − 16 above (6/29)³, (29/3)³ Y/Yn below; both are 8 at the join.
    CHECK_THAT(to_lab({0, 12.5, 0}, d65).l, Near(116 * 0.5 - 16, identity));
    CHECK_THAT(to_lab({0, 0.5, 0}, d65).l, Near(std::pow(29.0 / 3.0, 3) * 0.005, closed_form));
    const double join = 100 * std::pow(6.0 / 29.0, 3);
    CHECK_THAT(to_lab({0, join * (1 - 1e-12), 0}, d65).l, Near(8, closed_form));
    CHECK_THAT(to_lab({0, join * (1 + 1e-12), 0}, d65).l, Near(8, closed_form));
}

TEST_CASE("XYZ to CIELAB and back is exact from white to deepest black, and for negative values") {
    Seeded seed(2);
    double worst = 0;
    for (int i = 0; i < 20000; ++i) {
        const double level = std::pow(10, seed.uniform(-9, 2));
        const Xyz c{level * seed.uniform(-0.1, 1), level * seed.uniform(-0.1, 1), level * seed.uniform(-0.1, 1)};
        const Xyz back = from_lab(to_lab(c, d65), d65);
        // XYZ of 100 through numbers of the size of 16/116: rounding of about 100 · 2⁻⁵² · a few.
        worst = worst_of({worst, std::abs(back.x - c.x), std::abs(back.y - c.y), std::abs(back.z - c.z)});
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("CIELAB to XYZ and back is exact") {
    Seeded seed(3);
    double worst = 0;
    for (int i = 0; i < 20000; ++i) {
        const Lab c = seed.lab();
        const Lab back = to_lab(from_lab(c, d65), d65);
        worst = worst_of({worst, std::abs(back.l - c.l), std::abs(back.a - c.a), std::abs(back.b - c.b)});
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("a white that is not one is refused with its value") {
    using Catch::Contains;
    CHECK_THROWS_AS(to_lab(d65, {95, 0, 108}), std::invalid_argument);
    CHECK_THROWS_WITH(to_lab(d65, {95, 0, 108}), Contains("95, 0, 108"));
    CHECK_THROWS_WITH(from_lab({50, 0, 0}, {-1, 100, 108}), Contains("-1, 100, 108"));
}
