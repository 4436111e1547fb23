#pragma once
/// What a color looks like under a light to an eye that has adapted to it: CIECAM16 (CIE 248:2022). CIELAB compares two
/// colors under one light; this compares what is seen under one light with what is seen under another.

#include "foretone/color/xyz.hpp"

namespace foretone::color {

/// Where the color is looked at.
struct Viewing {
    Xyz white;                        ///< of the light, Y = 100
    double adapting_cd_per_m2 = 64;   ///< L_A: luminance of the field the eye has adapted to
    double background_y = 20;         ///< Y_b of what lies around, white = 100
    bool adapts_wholly = true;        ///< D = 1: the lamp's tint is not seen; false: D follows from L_A
    double f = 1, c = 0.69, n_c = 1;  ///< surround: average (dim 0.9, 0.59, 0.9; dark 0.8, 0.525, 0.8)
};

/// A room: 500 lx on mid-grey (500 · 0.2/π cd/m²), average surround, the eye wholly adapted to the lamp.
Viewing in_a_room(const Xyz& white);

/// What is seen. `h` and `quadrature` are 0 for a grey.
struct Appearance {
    double lightness = 0;     ///< J, 0–100
    double chroma = 0;        ///< C
    double hue_deg = 0;       ///< h, 0–360
    double brightness = 0;    ///< Q
    double colorfulness = 0;  ///< M
    double saturation = 0;    ///< s
    double quadrature = 0;    ///< H: 0 red, 100 yellow, 200 green, 300 blue, 400 red
};

/// The appearance of `c`, both it and the white on the Y = 100 scale. Finite for every finite `c`. Throws
/// std::invalid_argument for a white that no light has, or a field, background or surround that is not above 0.
Appearance appearance(const Xyz& c, const Viewing& view);

/// The uniform space of the same model (Li et al. 2017): straight distances are differences seen.
struct Ucs {
    double j = 0, a = 0, b = 0;
};
Ucs ucs(const Appearance& seen);

/// Straight distance in that space.
double delta_e_ucs(const Ucs& p, const Ucs& q);

}  // namespace foretone::color
