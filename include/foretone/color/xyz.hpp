#pragma once
/// Tristimulus values: a reflectance seen under a light by a standard observer.
/// Scale: the perfect white has Y = 100.

#include <cstddef>
#include <vector>

#include "foretone/spectral/grid.hpp"
#include "foretone/spectral/standard.hpp"

namespace foretone::color {

/// Tristimulus values on the Y = 100 scale.
struct Xyz {
    double x = 0, y = 0, z = 0;
    bool operator==(const Xyz&) const = default;
};

/// 81 weights a channel: XYZ is a dot product with a grid reflectance. Made once per light and observer.
struct Weights {
    spectral::Spectrum x, y, z;
    Xyz white;  ///< XYZ of the perfect reflecting diffuser, Y = 100 exactly
};

/// Weights for the 5 nm grid after ASTM E2022: the 1 nm products S·x̄ are spread onto the grid points by the
/// third-order Lagrange interpolation that a 5 nm reflectance would be interpolated with; power and responses outside
/// 380–780 nm are added to the end points (as if the reflectance kept its end values), and the sums are normalised
/// to Y = 100.
Weights make_weights(const spectral::Illuminant& light, const spectral::Observer& observer);

/// The same weights on any regular grid, as tables in print give them.
struct WeightTable {
    double start_nm = 0, step_nm = 0;
    std::vector<double> x, y, z;  ///< one weight a grid wavelength; Σy = 100
};

/// Weights for `count` (≥ 2) wavelengths from `start_nm` every `step_nm` (> 0): the construction of `make_weights`.
WeightTable weight_table(const spectral::Illuminant& light, const spectral::Observer& observer, double start_nm,
                         double step_nm, std::size_t count);

/// XYZ of a grid reflectance.
Xyz xyz(const spectral::Spectrum& reflectance, const Weights& w);

/// XYZ by direct summation at 1 nm over 360–830 nm (CIE 15:2018, the reference method): reflectance interpolated by
/// the cubic, light linearly; both hold their end values outside their range.
/// This and the functions above throw std::invalid_argument for a spectrum that fails `spectral::check`, a light with a
/// negative power or none at all, and an observer that is not sampled at whole nanometres without gaps.
Xyz xyz_by_summation(const spectral::Sampled& reflectance, const spectral::Illuminant& light,
                     const spectral::Observer& observer);

/// White point by direct summation at 1 nm over 360–830 nm.
Xyz white_by_summation(const spectral::Illuminant& light, const spectral::Observer& observer);

}  // namespace foretone::color
