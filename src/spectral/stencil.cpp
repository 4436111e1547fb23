// Lagrange weights of the samples around a wavelength.
//
// Symbols: λ wanted wavelength, λ_j sample wavelengths, nm · weight_j = Π_{k≠j} (λ − λ_k)/(λ_j − λ_k).
// The product form is well-conditioned: every factor is a ratio of differences of neighbouring wavelengths, of order
// one, at a sample it gives exactly 1 and 0, and nothing large cancels as it would in the expanded polynomial.

#include "foretone/spectral/stencil.hpp"

#include <algorithm>

namespace foretone::spectral {
namespace {

// Index of the sample at or below `nm`, which lies strictly inside the range.
std::size_t interval(std::span<const double> wavelength_nm, double nm) {
    const auto above = std::upper_bound(wavelength_nm.begin(), wavelength_nm.end(), nm);
    return static_cast<std::size_t>(above - wavelength_nm.begin()) - 1;
}

}  // namespace

Stencil cubic_stencil(std::span<const double> wavelength_nm, double nm) {
    const std::size_t n = wavelength_nm.size();
    if (nm <= wavelength_nm.front()) return {0, 1, {1.0}};
    if (nm >= wavelength_nm.back()) return {n - 1, 1, {1.0}};

    // One sample on each side of the interval, as far as the list goes; three points in an end interval make E2022's
    // quadratic. An end interval takes the third point from its inner side.
    const std::size_t i = interval(wavelength_nm, nm);
    const std::size_t first = i == 0 ? 0 : i - 1;
    const std::size_t last = std::min(i + 2, n - 1);
    Stencil s{first, last - first + 1, {}};
    for (std::size_t j = 0; j < s.count; ++j) {
        double w = 1;
        for (std::size_t k = 0; k < s.count; ++k) {
            if (k == j) continue;
            w *= (nm - wavelength_nm[first + k]) / (wavelength_nm[first + j] - wavelength_nm[first + k]);
        }
        s.weight[j] = w;
    }
    return s;
}

}  // namespace foretone::spectral
