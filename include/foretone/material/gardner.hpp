#pragma once
/// Gardner color number (ASTM D1544) to absorbance.
///
/// The standard gives, for each number 1–18, the chromaticity under illuminant C of a 10.65 mm tube of liquid. A clear
/// yellow-brown liquid is well described by two parameters, A(λ) = A450 · exp(−(λ − 450)/w), decadic, per cm, which are
/// fitted to each row's chromaticity. Between numbers ln A450 and w are interpolated linearly. Range 1–18; largest
/// error of a re-predicted chromaticity 0.005 in x or y (asserted in the tests).

#include "foretone/spectral/grid.hpp"

namespace foretone::material {

inline constexpr double gardner_path_cm = 1.065;  ///< ASTM D1544: tube of 10.65 mm

struct GardnerFit {
    double a450_per_cm;
    double width_nm;
};

/// Parameters for a number from 1 to 18. Throws std::invalid_argument outside.
GardnerFit gardner_fit(double number);

/// Decadic absorbance per cm of the test liquid.
spectral::Spectrum gardner_absorbance_per_cm(double number);

}  // namespace foretone::material
