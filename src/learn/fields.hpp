#pragma once
// Smooth unknown spectra as sums of a few fixed curves, each with a standard normal amplitude.

#include <vector>

#include "foretone/spectral/grid.hpp"

namespace foretone::learn {

/// What a correction, as a function of wavelength, may look like; all are standard deviations.
struct FieldPrior {
    double level = 0;  ///< the same everywhere
    double tilt = 0;   ///< rising by this over `tilt_nm` about `pivot_nm`
    double bend = 0;   ///< the square of that
    double pivot_nm = 560, tilt_nm = 180;
    double shape = 0;  ///< anything smooth, correlated over `smooth_nm`
    double smooth_nm = 40;
};

/// Curves whose sum with independent standard normal amplitudes has this prior, largest first. Without `shape` there
/// are at most three.
std::vector<spectral::Spectrum> field_curves(const FieldPrior& prior);

/// The reflectance with `shift` added to ln(K/S) of it as a half-space.
double shifted(double reflectance, double shift);

}  // namespace foretone::learn
