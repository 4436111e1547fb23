#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "color/seeded.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "support/tolerance.hpp"

using namespace foretone::color;
using namespace foretone::test;

namespace {

double hue_deg(const Lab& c) { return std::atan2(c.b, c.a) * 180 / std::numbers::pi; }
double chroma(const Lab& c) { return std::hypot(c.a, c.b); }

bool in_cube(const std::array<double, 3>& rgb, double slack) {
    return std::all_of(rgb.begin(), rgb.end(), [&](double v) { return v >= -slack && v <= 1 + slack; });
}

}  // namespace

TEST_CASE("a color outside the gamut keeps its lightness and hue and loses no more chroma than it must") {
    Seeded seed(7);
    double worst_l = 0, worst_hue = 0;
    int mapped = 0, outside = 0, unchanged_wrong = 0, wasteful = 0;
    for (int i = 0; i < 5000; ++i) {
        Lab want = seed.lab();
        want.l = 1 + 0.98 * want.l;  // 1–99
        const Xyz c = from_lab(want, srgb_white);
        const Display d = to_display(c, srgb_white);
        if (!in_cube(d.rgb, 0)) ++outside;
        const Lab got = to_lab(srgb_to_xyz(d.rgb), srgb_white);
        if (d.in_gamut) {
            if (delta_e_ab(got, want) > 1e-6) ++unchanged_wrong;
            continue;
        }
        ++mapped;
        worst_l = worst_of(worst_l, std::abs(got.l - want.l));
        worst_hue = worst_of(worst_hue, std::abs(std::remainder(hue_deg(got) - hue_deg(want), 360)));
        // One part in 10,000 of the wanted chroma more, and the color would no longer fit.
        const double more = chroma(got) / chroma(want) + 1e-4;
        if (in_cube(xyz_to_srgb(from_lab({want.l, more * want.a, more * want.b}, srgb_white)), 1e-9)) ++wasteful;
    }
    CHECK(mapped > 1000);
    CHECK(outside == 0);
    CHECK(unchanged_wrong == 0);
    CHECK(wasteful == 0);
    CHECK_THAT(worst_l, Near(0, 1e-6));
    CHECK_THAT(worst_hue, Near(0, 1e-3));
}

TEST_CASE("colors under another white are adapted first and mapped then") {
    const Xyz a{109.85, 100, 35.58};  // CIE 15:2018, illuminant A
    const Xyz c = from_lab({60, 90, 70}, a);
    const Display d = to_display(c, a);
    CHECK_FALSE(d.in_gamut);
    CHECK(in_cube(d.rgb, 0));
    const Lab want = to_lab(adapt(c, a, srgb_white), srgb_white), got = to_lab(srgb_to_xyz(d.rgb), srgb_white);
    CHECK_THAT(got.l, Near(want.l, 1e-6));
    CHECK_THAT(hue_deg(got), Near(hue_deg(want), 1e-3));
    CHECK(chroma(got) < chroma(want));
}

TEST_CASE("brighter than white becomes white, darker than black becomes black, and both say so") {
    const Display bright = to_display({120, 130, 140}, srgb_white);
    CHECK_FALSE(bright.in_gamut);
    CHECK(bright.hex() == "#ffffff");
    const Display dark = to_display({-1, -1, -1}, srgb_white);
    CHECK_FALSE(dark.in_gamut);
    CHECK(dark.hex() == "#000000");
}
