#pragma once
/// Local third-order Lagrange interpolation as a set of weights: value(nm) = Σ weight[j] · value[first + j].
/// The same weights read a reflectance between its samples and, transposed, spread a 1 nm product onto a coarser grid
/// (ASTM E2022): that is why both methods of computing XYZ agree.

#include <array>
#include <cstddef>
#include <span>

#include "foretone/spectral/sampled.hpp"

namespace foretone::spectral {

/// Up to four neighbouring samples and their weights, which sum to 1.
struct Stencil {
    std::size_t first = 0;
    std::size_t count = 0;
    std::array<double, 4> weight{};
};

/// Weights at `nm` for samples at strictly rising `wavelength_nm` (at least two): cubic in inner intervals, quadratic
/// in the first and the last one, linear if there are two samples only, the end sample alone outside the range.
Stencil cubic_stencil(std::span<const double> wavelength_nm, double nm);

}  // namespace foretone::spectral
