#pragma once
// The innermost loops of the search: Chebyshev polynomials in every wavelength, and weighted sums over them.

#include <cstddef>

#include "foretone/base/isa.hpp"

namespace foretone::search::chebyshev {

inline constexpr std::size_t lane = 8;     ///< values a vector loop takes at once
inline constexpr std::size_t padded = 88;  ///< 81 wavelengths in whole lanes; the spare ones are 0

/// r[λ] = Σ c_k(λ) T_k(x(λ)) by Clenshaw's recurrence; `coefficients` holds `terms` (≥ 2) rows of `padded`, `x` is −1
/// … 1.
void reflectance(base::Isa isa, const double* coefficients, std::size_t terms, const float* x, double* r);

/// Σ w r over `padded` values, in a fixed order.
double weighted_sum(base::Isa isa, const double* w, const double* r);

}  // namespace foretone::search::chebyshev
