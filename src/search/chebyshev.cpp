#include "chebyshev.hpp"

#define FORETONE_LOOPS "search/chebyshev_loops.inc"

namespace foretone::search::chebyshev {

#include "foretone/base/each_isa.inc"

void reflectance(base::Isa isa, const double* coefficients, std::size_t terms, const float* x, double* r) {
    FORETONE_FOR(isa, reflectance)(coefficients, terms, x, r);
}

double weighted_sum(base::Isa isa, const double* w, const double* r) { return FORETONE_FOR(isa, weighted_sum)(w, r); }

}  // namespace foretone::search::chebyshev
