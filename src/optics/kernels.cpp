#include "kernels.hpp"

#include <cmath>
#include <cstdint>

#include "beam.hpp"
#include "foretone/base/bits.hpp"
#include "foretone/optics/calibration.hpp"

#define FORETONE_LOOPS "optics/kernel_loops.inc"

namespace foretone::optics::kernels {

#include "foretone/base/each_isa.inc"

void film_reflectance(Isa isa, const Paths& paths, const double* const* depths, std::size_t count, double* reflectance,
                      double* scratch) {
    FORETONE_FOR(isa, film_reflectance)(paths, depths, count, reflectance, scratch);
}

void film_panel(Isa isa, const Paths& paths, const double* const* depths, std::size_t count, double* reflectance,
                double* other_reflectance, double* transmittance, double* scratch) {
    FORETONE_FOR(isa, film_panel)(paths, depths, count, reflectance, other_reflectance, transmittance, scratch);
}

void slab_over(Isa isa, const double* absorption, const double* scattering, double anisotropy, double thickness_mm,
               std::size_t count, double* below, double* through) {
    FORETONE_FOR(isa, slab_over)(absorption, scattering, anisotropy, thickness_mm, count, below, through);
}

void slab_over_seen(Isa isa, const SeenSlab& slab, std::size_t count, const Channels& below) {
    FORETONE_FOR(isa, slab_over_seen)(slab, count, below);
}

void half_space(Isa isa, const SeenSlab& slab, std::size_t count, const Channels& out) {
    if (out.beam_up)
        FORETONE_FOR(isa, half_space_seen)(slab, count, out);
    else
        FORETONE_FOR(isa, half_space)(slab, count, out.diffuse_up);
}

}  // namespace foretone::optics::kernels
