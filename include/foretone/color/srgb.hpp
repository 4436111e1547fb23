#pragma once
/// sRGB (IEC 61966-2-1) for screens: adaptation to D65, gamut mapping at constant hue and lightness, 8-bit codes.

#include <array>
#include <cstdint>
#include <string>

#include "foretone/color/lab.hpp"

namespace foretone::color {

/// White of sRGB, from its chromaticity x = 0.3127, y = 0.3290; Y = 100.
extern const Xyz srgb_white;

/// Linear-light components to nonlinear ones and back; extended to negative values by symmetry.
double srgb_encode(double linear);
double srgb_decode(double encoded);

/// XYZ (Y = 100, white `srgb_white`) to nonlinear sRGB, not clipped, and back.
std::array<double, 3> xyz_to_srgb(const Xyz& c);
Xyz srgb_to_xyz(const std::array<double, 3>& rgb);

/// A color as a screen can show it.
struct Display {
    std::array<double, 3> rgb{};         ///< nonlinear sRGB, 0–1
    std::array<std::uint8_t, 3> code{};  ///< 8-bit codes
    bool in_gamut = true;                ///< false: chroma was reduced at constant CIELAB hue and lightness
    std::string hex() const;             ///< "#rrggbb"
};

/// `c` under `white` as it looks on an sRGB screen: adapted to D65 by CAT16, so that CIECAM16 says the same of both; if
/// outside the gamut, CIELAB chroma is reduced at constant lightness and hue until it fits (to 1e-4 of the chroma),
/// never clipped per channel. Lighter than white (L* > 100) becomes white, L* < 0 black: no chroma fits there;
/// `in_gamut` is false for both. Throws std::invalid_argument for a white that no light has.
Display to_display(const Xyz& c, const Xyz& white);

}  // namespace foretone::color
