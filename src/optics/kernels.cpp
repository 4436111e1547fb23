// See kernels.hpp.
//
// The loops are in kernel_bodies.inc and are compiled here three times. They hold nothing that keeps a compiler from
// vectorising: no floating-point comparison (which might trap), no library call (√ would set errno), no store that
// could change a loop's constants.

#include "kernels.hpp"

#include <bit>
#include <cmath>
#include <cstdint>

#include "beam.hpp"
#include "foretone/optics/calibration.hpp"

#if defined(__GNUC__) && !defined(__clang__)
#define FORETONE_IVDEP _Pragma("GCC ivdep")
#if defined(__x86_64__)
#define FORETONE_X86 1
#endif
#else
#define FORETONE_IVDEP
#endif

namespace foretone::optics::kernels {

#ifdef FORETONE_X86
#pragma GCC push_options
#endif
namespace baseline {
#include "kernel_bodies.inc"
}  // namespace baseline
#ifdef FORETONE_X86
#pragma GCC target("avx2")
namespace avx2 {
#include "kernel_bodies.inc"
}  // namespace avx2
#pragma GCC target("avx512f,avx512dq,prefer-vector-width=512")
namespace avx512 {
#include "kernel_bodies.inc"
}  // namespace avx512
#pragma GCC pop_options
#define FORETONE_PICK(isa, kernel) \
    ((isa) == Isa::avx512 ? avx512::kernel : (isa) == Isa::avx2 ? avx2::kernel : baseline::kernel)
#else
#define FORETONE_PICK(isa, kernel) ((void)(isa), baseline::kernel)
#endif

Isa widest() {
#ifdef FORETONE_X86
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq")) return Isa::avx512;
    if (__builtin_cpu_supports("avx2")) return Isa::avx2;
#endif
    return Isa::baseline;
}

void film_reflectance(Isa isa, const Paths& paths, const double* const* depths, std::size_t count, double* reflectance,
                      double* scratch) {
    FORETONE_PICK(isa, film_reflectance)(paths, depths, count, reflectance, scratch);
}

void film_panel(Isa isa, const Paths& paths, const double* const* depths, std::size_t count, double* reflectance,
                double* other_reflectance, double* transmittance, double* scratch) {
    FORETONE_PICK(isa, film_panel)(paths, depths, count, reflectance, other_reflectance, transmittance, scratch);
}

void slab_over(Isa isa, const double* absorption, const double* scattering, double anisotropy, double thickness_mm,
               std::size_t count, double* below, double* through) {
    FORETONE_PICK(isa, slab_over)(absorption, scattering, anisotropy, thickness_mm, count, below, through);
}

void slab_over_seen(Isa isa, const SeenSlab& slab, std::size_t count, const Channels& below) {
    FORETONE_PICK(isa, slab_over_seen)(slab, count, below);
}

}  // namespace foretone::optics::kernels
