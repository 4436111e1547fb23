// sRGB: transfer curve, matrix, and the fit of any color into the gamut.
//
// Symbols: linear and encoded components, 0–1 in gamut · M linear sRGB → XYZ on the Y = 1 scale.
// M is derived from the chromaticities of IEC 61966-2-1 (primaries and D65) in full precision instead of using the
// printed four-digit matrix: white then maps to 1, 1, 1 and the inverse is exact to rounding.

#include "foretone/color/srgb.hpp"

#include <algorithm>
#include <cmath>

#include <glm/matrix.hpp>

#include "foretone/color/adaptation.hpp"
#include "matrix.hpp"

namespace foretone::color {
namespace {

// XYZ with Y = 1 of chromaticity x, y.
glm::dvec3 from_chromaticity(double x, double y) { return {x / y, 1.0, (1 - x - y) / y}; }

struct Matrices {
    glm::dmat3 to_xyz, to_rgb;
};

Matrices make_matrices() {
    const glm::dmat3 primaries(from_chromaticity(0.64, 0.33), from_chromaticity(0.30, 0.60),
                               from_chromaticity(0.15, 0.06));
    // How much of each primary makes the white.
    const glm::dvec3 share = glm::inverse(primaries) * (vec(srgb_white) / 100.0);
    const glm::dmat3 to_xyz(primaries[0] * share.x, primaries[1] * share.y, primaries[2] * share.z);
    return {to_xyz, glm::inverse(to_xyz)};
}

const Matrices& matrices() {
    static const Matrices m = make_matrices();
    return m;
}

// A component this far outside 0–1 is rounding, not color: a white reflectance must not be called out of gamut.
constexpr double rounding = 1e-9;

bool fits(const std::array<double, 3>& rgb) {
    return std::all_of(rgb.begin(), rgb.end(), [](double v) { return v >= -rounding && v <= 1 + rounding; });
}

// The color of `lab` with its chroma multiplied by `share`.
std::array<double, 3> with_chroma(const Lab& lab, double share) {
    return xyz_to_srgb(from_lab({lab.l, share * lab.a, share * lab.b}, srgb_white));
}

// The largest chroma that fits, by bisection: grey fits, the full chroma does not, and the lower end always fits.
// 30 halvings leave 1e-9 of the chroma, well under an 8-bit code.
std::array<double, 3> reduce_chroma(Lab lab) {
    lab.l = std::clamp(lab.l, 0.0, 100.0);
    double low = 0, high = 1;
    for (int i = 0; i < 30; ++i) {
        const double mid = (low + high) / 2;
        (fits(with_chroma(lab, mid)) ? low : high) = mid;
    }
    return with_chroma(lab, low);
}

}  // namespace

constinit const Xyz srgb_white{100.0 * 0.3127 / 0.3290, 100.0, 100.0 * (1 - 0.3127 - 0.3290) / 0.3290};

double srgb_encode(double linear) {
    const double v = std::abs(linear);
    const double e = v <= 0.0031308 ? 12.92 * v : 1.055 * std::pow(v, 1 / 2.4) - 0.055;
    return std::copysign(e, linear);
}

double srgb_decode(double encoded) {
    const double v = std::abs(encoded);
    const double d = v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
    return std::copysign(d, encoded);
}

std::array<double, 3> xyz_to_srgb(const Xyz& c) {
    const glm::dvec3 v = matrices().to_rgb * (vec(c) / 100.0);
    return {srgb_encode(v.x), srgb_encode(v.y), srgb_encode(v.z)};
}

Xyz srgb_to_xyz(const std::array<double, 3>& rgb) {
    const glm::dvec3 v(srgb_decode(rgb[0]), srgb_decode(rgb[1]), srgb_decode(rgb[2]));
    return xyz_of(matrices().to_xyz * v * 100.0);
}

Display to_display(const Xyz& c, const Xyz& white) {
    const Xyz adapted = adapt(c, white, srgb_white);
    Display d;
    d.rgb = xyz_to_srgb(adapted);
    d.in_gamut = fits(d.rgb);
    if (!d.in_gamut) d.rgb = reduce_chroma(to_lab(adapted, srgb_white));
    for (std::size_t i = 0; i < 3; ++i) {
        d.rgb[i] = std::clamp(d.rgb[i], 0.0, 1.0);  // takes off what `rounding` let through, no more
        d.code[i] = static_cast<std::uint8_t>(std::lround(255 * d.rgb[i]));
    }
    return d;
}

std::string Display::hex() const {
    static constexpr char digit[] = "0123456789abcdef";
    std::string s = "#";
    for (const auto v : code) {
        s += digit[v >> 4];
        s += digit[v & 15];
    }
    return s;
}

}  // namespace foretone::color
