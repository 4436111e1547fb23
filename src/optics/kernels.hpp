#pragma once
// The inner loops over wavelengths, once for each instruction set.
//
// Every loop does the same elementwise operations in the same order whatever the vector width (no fused multiply-adds,
// no sums across wavelengths, exponentials of our own), so that all versions give the same bytes.

#include <cstddef>

#include "foretone/base/isa.hpp"
#include "foretone/optics/clear_films.hpp"

namespace foretone::optics::kernels {

using base::Isa;

/// Nodes and the steps they index.
struct Paths {
    const ClearFilms::Node* nodes;
    std::size_t count;
    const ClearFilms::Step* steps;
};

/// Adds to `reflectance` Σ weight·(mean of both polarisations of the light returned along each node's steps).
/// Every node has a step. `scratch` holds 2·count.
void film_reflectance(Isa isa, const Paths& paths, const double* const* depths, std::size_t count, double* reflectance,
                      double* scratch);

/// The same, with the transmittance and the reflectance from the other side: the three quantities of a symmetric path.
/// `scratch` holds 6·count.
void film_panel(Isa isa, const Paths& paths, const double* const* depths, std::size_t count, double* reflectance,
                double* other_reflectance, double* transmittance, double* scratch);

/// One scattering layer over what lies below, in diffuse light alone. `below` (reflectance) is replaced by the
/// reflectance seen from the layer's top; `through` (transmittance) likewise. Thickness is finite.
void slab_over(Isa isa, const double* absorption, const double* scattering, double anisotropy, double thickness_mm,
               std::size_t count, double* below, double* through);

/// What lies below a level of the stack, to diffuse light and to one ray (the beam), given unit flux of either coming
/// down: the diffuse flux that comes up, the radiance factor towards one direction (the eye), and what passes the
/// stack's other end.
struct Channels {
    double *diffuse_up, *diffuse_seen, *diffuse_through;
    double *beam_up, *beam_seen, *beam_through;
};

/// One scattering layer in a beam.
struct SeenSlab {
    const double *absorption, *scattering;
    double anisotropy, thickness_mm;
    double beam, eye;  ///< 1/µ of the beam and of the eye's direction in the layer
};

/// One scattering layer over what lies below, all channels. Thickness is finite.
void slab_over_seen(Isa isa, const SeenSlab& slab, std::size_t count, const Channels& below);

/// One without end: sets `diffuse_up` and, where there are channels for them, what the beam and the eye have of it.
void half_space(Isa isa, const SeenSlab& slab, std::size_t count, const Channels& out);

}  // namespace foretone::optics::kernels
