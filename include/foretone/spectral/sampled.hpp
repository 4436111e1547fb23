#pragma once
/// A spectrum as it was published or measured: any rising list of wavelengths, one value each.

#include <vector>

#include "foretone/spectral/grid.hpp"

namespace foretone::spectral {

/// Values at rising wavelengths. Invariants (checked by `check`): same length, at least two points,
/// wavelengths strictly rising, everything finite.
struct Sampled {
    std::vector<double> wavelength_nm;
    std::vector<double> value;

    /// Equally spaced samples from `start_nm` every `step_nm` (> 0). Throws as `check` does.
    static Sampled regular(double start_nm, double step_nm, std::vector<double> values);

    double first_nm() const { return wavelength_nm.front(); }
    double last_nm() const { return wavelength_nm.back(); }
};

/// Throws std::invalid_argument with the offending index and value if an invariant is broken.
void check(const Sampled& s);

/// Value at `nm` on the straight line between the neighbours; the end value outside the range.
/// CIE 15:2018 uses this for illuminants. `s` must satisfy `check`.
double linear_at(const Sampled& s, double nm);

/// Value at `nm` of the cubic through the four nearest points (third-order Lagrange, the interpolation CIE 15:2018
/// and ASTM E2022 name for reflectances; quadratic in the first and last interval as E2022 does);
/// the end value outside the range. Reproduces any cubic exactly in inner intervals. `s` must satisfy `check`.
double cubic_at(const Sampled& s, double nm);

/// What bringing a spectrum onto the grid did to it.
struct OnGrid {
    Spectrum spectrum;
    bool resampled = false;   ///< some grid wavelength inside the range was not a sample
    bool held_below = false;  ///< the first value was held towards 380 nm
    bool held_above = false;  ///< the last value was held towards 780 nm
};

/// The spectrum on the grid: cubic interpolation inside, end values held outside. Throws as `check` does.
OnGrid to_grid(const Sampled& s);

/// The grid spectrum as a sampled one.
Sampled from_grid(const Spectrum& s);

}  // namespace foretone::spectral
