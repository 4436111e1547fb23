// See leaf.hpp. Each loop is compiled for several instruction sets; none contracts a product and a sum, so all give the
// same bits.

#include "leaf.hpp"

#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
#define FORETONE_X86 1
#endif

namespace foretone::search::leaf {

#ifdef FORETONE_X86
#pragma GCC push_options
#pragma GCC optimize("O3")
#endif
namespace baseline {
#include "leaf_bodies.inc"
}  // namespace baseline
#ifdef FORETONE_X86
#pragma GCC target("avx2")
namespace avx2 {
#include "leaf_bodies.inc"
}  // namespace avx2
#pragma GCC target("avx512f,avx512dq,prefer-vector-width=512")
namespace avx512 {
#include "leaf_bodies.inc"
}  // namespace avx512
#pragma GCC pop_options

namespace {

int widest() {
    static const int isa = __builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq") ? 2
                           : __builtin_cpu_supports("avx2")                                        ? 1
                                                                                                   : 0;
    return isa;
}

}  // namespace

void reflectance(const double* coefficients, std::size_t terms, const float* x, double* r) {
    const int isa = widest();
    (isa == 2 ? avx512::reflectance : isa == 1 ? avx2::reflectance : baseline::reflectance)(coefficients, terms, x, r);
}

double dot(const double* w, const double* r) {
    const int isa = widest();
    return (isa == 2 ? avx512::dot : isa == 1 ? avx2::dot : baseline::dot)(w, r);
}
#else
void reflectance(const double* coefficients, std::size_t terms, const float* x, double* r) {
    baseline::reflectance(coefficients, terms, x, r);
}

double dot(const double* w, const double* r) { return baseline::dot(w, r); }
#endif

}  // namespace foretone::search::leaf
