#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "color/seeded.hpp"
#include "foretone/color/srgb.hpp"
#include "support/tolerance.hpp"

using namespace foretone::color;
using namespace foretone::test;

namespace {

std::array<double, 3> from_code(int r, int g, int b) { return {r / 255.0, g / 255.0, b / 255.0}; }

// Steps of an 8-bit code lost on the way to XYZ, to a display color and back.
int code_error(int r, int g, int b) {
    const Display d = to_display(srgb_to_xyz(from_code(r, g, b)), srgb_white);
    if (!d.in_gamut) return 256;
    return std::max({std::abs(d.code[0] - r), std::abs(d.code[1] - g), std::abs(d.code[2] - b)});
}

}  // namespace

TEST_CASE("the primaries and white have their standard chromaticities and luminances") {
    // IEC 61966-2-1: x, y exact; Y printed to four decimals.
    struct Primary {
        std::array<double, 3> rgb;
        double x, y, luminance;
    };
    const Primary primaries[] = {{{1, 0, 0}, 0.64, 0.33, 0.2126},
                                 {{0, 1, 0}, 0.30, 0.60, 0.7152},
                                 {{0, 0, 1}, 0.15, 0.06, 0.0722},
                                 {{1, 1, 1}, 0.3127, 0.3290, 1.0}};
    for (const auto& p : primaries) {
        const Xyz c = srgb_to_xyz(p.rgb);
        const double sum = c.x + c.y + c.z;
        CHECK_THAT(c.x / sum, Near(p.x, identity));
        CHECK_THAT(c.y / sum, Near(p.y, identity));
        CHECK_THAT(c.y / 100, Near(p.luminance, 5e-5));
    }
    CHECK_THAT(srgb_to_xyz({1, 1, 1}).x, Near(srgb_white.x, 1e-11));
    CHECK_THAT(srgb_to_xyz({1, 1, 1}).z, Near(srgb_white.z, 1e-11));
}

TEST_CASE("the transfer curve has the standard's points and is odd") {
    // IEC 61966-2-1: slope 12.92 up to 0.0031308 linear, 0.04045 encoded; 1.055 v^(1/2.4) − 0.055 above.
    CHECK_THAT(srgb_encode(0.001), Near(0.01292, identity));
    CHECK_THAT(srgb_encode(1), Near(1, identity));
    CHECK_THAT(srgb_decode(1), Near(1, identity));
    CHECK_THAT(srgb_decode(0.5), Near(std::pow(0.555 / 1.055, 2.4), identity));
    CHECK_THAT(srgb_decode(0.04044), Near(0.04044 / 12.92, identity));
    CHECK_THAT(srgb_decode(0.04046), Near(std::pow((0.04046 + 0.055) / 1.055, 2.4), identity));
    CHECK_THAT(srgb_encode(0.0031307), Near(12.92 * 0.0031307, identity));
    CHECK(srgb_encode(-0.2) == -srgb_encode(0.2));
    CHECK(srgb_decode(-0.2) == -srgb_decode(0.2));
    CHECK(srgb_encode(0) == 0);
    // The two printed thresholds do not meet exactly: the curve steps by less than 4e-8 there, 1e-5 of an 8-bit code.
    CHECK(std::abs(srgb_encode(std::nextafter(0.0031308, 1)) - srgb_encode(0.0031308)) < 4e-8);
}

TEST_CASE("all 8-bit greys and 4096 seeded colors come back to their codes") {
    int worst_grey = 0;
    for (int v = 0; v < 256; ++v) worst_grey = std::max(worst_grey, code_error(v, v, v));
    CHECK(worst_grey == 0);

    Seeded seed(6);
    const auto code = [&] { return static_cast<int>(seed.uniform(0, 256)); };
    int worst = 0;
    double worst_component = 0;
    for (int i = 0; i < 4096; ++i) {
        const int r = code(), g = code(), b = code();
        worst = std::max(worst, code_error(r, g, b));
        const auto rgb = xyz_to_srgb(srgb_to_xyz(from_code(r, g, b)));
        worst_component = worst_of({worst_component, std::abs(rgb[0] - r / 255.0), std::abs(rgb[1] - g / 255.0),
                                    std::abs(rgb[2] - b / 255.0)});
    }
    CHECK(worst == 0);
    CHECK_THAT(worst_component, Near(0, closed_form));
}

TEST_CASE("the corners of the cube are in the gamut and have their hex codes") {
    for (int i = 0; i < 8; ++i) CHECK(code_error(i & 1 ? 255 : 0, i & 2 ? 255 : 0, i & 4 ? 255 : 0) == 0);
    CHECK(to_display(srgb_to_xyz(from_code(0, 160, 255)), srgb_white).hex() == "#00a0ff");
    CHECK(Display{}.hex() == "#000000");
}

TEST_CASE("the white of any light is shown as white, and its grey as grey") {
    // CIE 15:2018: A and D50 at 2°; FL2 at 10° computed from its table.
    for (const Xyz& white : {Xyz{109.85, 100, 35.58}, Xyz{96.42, 100, 82.51}, Xyz{103.28, 100, 69.03}}) {
        const Display d = to_display(white, white);
        CHECK(d.in_gamut);
        CHECK(d.hex() == "#ffffff");
        const Display grey = to_display({white.x * 0.2, white.y * 0.2, white.z * 0.2}, white);
        CHECK_THAT(grey.rgb[0], Near(srgb_encode(0.2), closed_form));
        CHECK_THAT(grey.rgb[1], Near(srgb_encode(0.2), closed_form));
        CHECK_THAT(grey.rgb[2], Near(srgb_encode(0.2), closed_form));
    }
}
