#include "foretone/color/ciecam16.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "color/seeded.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::color;
using namespace foretone::test;

namespace {

const Xyz d65_of_4{95.05, 100, 108.88}, a_of_4{109.85, 100, 35.58};

Viewing seen_under(const Xyz& white, double l_a, double y_b = 20) {
    Viewing v{white};
    v.adapting_cd_per_m2 = l_a;
    v.background_y = y_b;
    v.adapts_wholly = false;
    return v;
}

double worst(const Appearance& got, const Appearance& due) {
    double off = 0;
    for (const auto member : {&Appearance::lightness, &Appearance::chroma, &Appearance::hue_deg,
                              &Appearance::brightness, &Appearance::colorfulness, &Appearance::saturation}) {
        const double d = std::abs(got.*member - due.*member);
        off = d <= off ? off : d;  // a NaN is kept
    }
    return off;
}

}  // namespace

TEST_CASE("CIECAM16 gives the worked example of CIE 248:2022") {
    // CIE 248:2022, worked example, four decimals: XYZ 60.70, 49.60, 10.29 under 96.46, 100, 108.62, L_A 40, Y_b 16,
    // average surround (as printed in the tests of colour-science, ciecam16).
    const auto got = appearance({60.70, 49.60, 10.29}, seen_under({96.46, 100, 108.62}, 40, 16));
    CHECK_THAT(worst(got, {70.4406, 58.6035, 57.9145, 172.1555, 51.2479, 54.5604, 0}), Near(0, table_digits));
    CHECK_THAT(got.quadrature, Near(50.7425, table_digits));
}

TEST_CASE("CIECAM16 gives Li et al.'s four colors under two whites and two luminances") {
    // The four colors of CIE 159:2004 with CAM16 (Li et al. 2017), values to eight decimals from the tests of
    // colour-science 0.4 (BSD-3-Clause), ciecam16.
    struct Case {
        Xyz c, white;
        double l_a;
        Appearance due;
    };
    const Case cases[] = {
        {{19.01, 20.00, 21.78},
         d65_of_4,
         318.31,
         {41.73120791, 0.10335574, 217.06795977, 195.37170899, 0.10743677, 2.34501507, 0}},
        {{57.06, 43.06, 31.96},
         d65_of_4,
         31.83,
         {65.42828069, 49.67956420, 17.48659243, 152.06985268, 42.62473321, 52.94308868, 0}},
        {{3.53, 6.56, 2.14},
         a_of_4,
         318.31,
         {21.36052893, 50.99381895, 178.86724266, 139.78582768, 53.00732582, 61.57953092, 0}},
        {{19.01, 20.00, 21.78},
         a_of_4,
         318.31,
         {41.36326063, 52.81154022, 258.88676291, 194.52011798, 54.89682038, 53.12406914, 0}},
        // The same source, outside the range of CAM16 of 2017: a signal below zero.
        {{61.45276998, 7.00421901, 82.2406738},
         d65_of_4,
         4.074366543152521,
         {2.212842606688056, 597.366327557872864, 352.035143755398565, 18.402345804194972, 431.850377022773955,
          484.428915071471351, 0}},
    };
    for (const auto& c : cases)
        CHECK_THAT(worst(appearance(c.c, seen_under(c.white, c.l_a)), c.due), Near(0, quadrature));
}

TEST_CASE("white looks white and as light as can be, grey has no chroma, black no lightness, under any lamp") {
    for (const Xyz& white : {d65_of_4, a_of_4, Xyz{98, 100, 60}}) {
        const auto view = in_a_room(white);
        const auto top = appearance(white, view);
        CHECK_THAT(top.lightness, Near(100, closed_form));
        CHECK_THAT(top.chroma, Near(0, closed_form));
        const auto grey = appearance({0.2 * white.x, 20, 0.2 * white.z}, view);
        CHECK_THAT(grey.chroma, Near(0, closed_form));
        CHECK(grey.lightness < 60);
        CHECK_THAT(appearance({0, 0, 0}, view).lightness, Near(0, closed_form));
    }
}

TEST_CASE("with the eye wholly adapted, a color moved to another white by CAT16 looks exactly as it did") {
    Seeded seed(16);
    double off = 0;
    for (int i = 0; i < 500; ++i) {
        const Xyz c = from_lab({seed.uniform(15, 90), seed.uniform(-20, 30), seed.uniform(-20, 50)}, a_of_4);
        const auto there = appearance(c, in_a_room(a_of_4));
        const auto here = appearance(adapt(c, a_of_4, srgb_white, Cat::cat16), in_a_room(srgb_white));
        off = worst_of(off, delta_e_ucs(ucs(there), ucs(here)));
        REQUIRE(std::isfinite(there.lightness + there.chroma + there.hue_deg));
    }
    CHECK_THAT(off, Near(0, closed_form));
}

TEST_CASE("hue quadrature runs through the unique hues and never back") {
    // CIE 248:2022: red 20.14°, yellow 90°, green 164.25°, blue 237.53°. Colors around the circle at one lightness.
    double before = -1, first = -1;
    int wraps = 0;
    for (double h = 0; h < 360; h += 1) {
        const double r = h * 3.14159265358979 / 180;
        const auto seen =
            appearance(from_lab({60, 30 * std::cos(r), 30 * std::sin(r)}, srgb_white), in_a_room(srgb_white));
        if (first < 0) first = before = seen.quadrature;
        if (seen.quadrature < before - 1e-9) ++wraps;
        CHECK(seen.quadrature >= 0);
        CHECK(seen.quadrature < 400);
        before = seen.quadrature;
    }
    CHECK(wraps <= 1);
}

TEST_CASE("every color has a finite appearance, and a light that is none is refused") {
    Seeded seed(5);
    for (int i = 0; i < 500; ++i) {
        const Xyz c{seed.uniform(-5, 300), seed.uniform(-5, 300), seed.uniform(-5, 300)};
        const auto s = appearance(c, in_a_room(d65_of_4));
        REQUIRE(std::isfinite(s.lightness));
        REQUIRE(std::isfinite(ucs(s).a));
    }
    CHECK_THROWS_AS(appearance({20, 20, 20}, in_a_room({0, 0, 0})), std::invalid_argument);
    auto view = in_a_room(d65_of_4);
    view.background_y = 0;
    CHECK_THROWS_AS(appearance({20, 20, 20}, view), std::invalid_argument);
    view.background_y = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(appearance({20, 20, 20}, view), std::invalid_argument);
}

TEST_CASE("beyond the compression's curve a color's response runs on along the tangent") {
    // Greys under a light that the eye has adapted to: each cone's signal is q = s, and lightness is
    // J = 100 (f(s)/f(100))^(c z) (CIE 248:2022); z = 1.48 + sqrt(0.2). Of f = 400 x/(x + 27.13), x ~ q^0.42, two
    // slopes 3/1000 of q apart differ by under 0.3 %.
    auto view = seen_under(d65_of_4, 318.31);
    view.adapts_wholly = true;
    const double power = 1 / (view.c * (1.48 + std::sqrt(0.2)));
    const auto response = [&](double s) {
        const Xyz c{d65_of_4.x * s / 100, s, d65_of_4.z * s / 100};
        return std::pow(appearance(c, view).lightness / 100, power);
    };
    for (const double end : {150.0, 0.26}) {
        const double h = end / 1000;
        const double below = (response(end - h) - response(end - 2 * h)) / h,
                     above = (response(end + 2 * h) - response(end + h)) / h;
        INFO(end << ": " << below << ", " << above);
        if (end > 1) CHECK(std::abs(above / below - 1) < 0.01);
        CHECK(above > 0);
        CHECK(below > 0);
    }
}

TEST_CASE("in a room an eye is adapted to mid-grey under 500 lx") {
    // CIE 248:2022: L_A = (E/π)(Y_b/100), here E 500 lx and Y_b 20.
    const auto v = in_a_room(d65_of_4);
    CHECK_THAT(v.adapting_cd_per_m2, Near(31.830989, 1e-6));
    CHECK(v.background_y == 20);
    CHECK(v.adapts_wholly);
    CHECK(v.white.x == d65_of_4.x);
}

TEST_CASE("the uniform space is Li et al.'s two curves over lightness and colorfulness, along the hue") {
    // J' = 1.7 J/(1 + 0.007 J), M' = ln(1 + 0.0228 M)/0.0228 (Li et al. 2017).
    Appearance seen;
    seen.lightness = 50, seen.colorfulness = 40, seen.hue_deg = 30;
    const auto u = ucs(seen);
    CHECK_THAT(u.j, Near(85 / 1.35, closed_form));
    const double m = std::log(1.912) / 0.0228;
    CHECK_THAT(u.a, Near(m * std::sqrt(3.0) / 2, closed_form));
    CHECK_THAT(u.b, Near(m / 2, closed_form));
    CHECK_THAT(delta_e_ucs(u, {u.j + 3, u.a, u.b - 4}), Near(5, closed_form));
}
