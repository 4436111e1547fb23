#pragma once
/// CIELAB (CIE 15:2018, ISO/CIE 11664-4) and the two color differences used.

#include "foretone/color/xyz.hpp"

namespace foretone::color {

/// CIELAB: L 0–100, a and b about −130…130.
struct Lab {
    double l = 0, a = 0, b = 0;
    bool operator==(const Lab&) const = default;
};

/// CIELAB of `c` relative to `white`, both on the same scale.
Lab to_lab(const Xyz& c, const Xyz& white);

/// Inverse of `to_lab`.
Xyz from_lab(const Lab& c, const Xyz& white);

/// ΔE*ab (CIE 1976): the straight distance.
double delta_e_ab(const Lab& p, const Lab& q);

/// ΔE00, CIEDE2000 with kL = kC = kH = 1 (Sharma, Wu & Dalal 2005; ISO/CIE 11664-6). Symmetric.
double delta_e_00(const Lab& p, const Lab& q);

}  // namespace foretone::color
