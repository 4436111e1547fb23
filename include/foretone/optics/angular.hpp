#pragma once
/// The exact solver, the reference for the fast one: radiative transfer through the stack direction by direction, with
/// Fresnel interfaces, refraction, total reflection and Henyey–Greenstein scattering. Intensities add: no interference.
/// A run of clear films keeps the two polarisations apart; a scatterer and a Lambertian base mix them.

#include <vector>

#include "foretone/optics/stack.hpp"

namespace foretone::optics {

struct AngularOptions {
    /// Directions a hemisphere in a medium under air, 4–64, half of them able to leave; a second index adds a few, and
    /// a measuring direction one. Largest error against converged tables (tests/data: 59 slabs and half-spaces, 52
    /// stacks over a diffuse base, 70 clear films over a diffuse base; the worst transport rows are g = 0.9 in n = 1.5,
    /// hardly absorbing):
    ///
    ///     streams    collimated    diffuse    clear film, any geometry
    ///       4          1.4e-2      1.3e-2       1.2e-2
    ///       6          5.1e-3      2.4e-3       1.9e-3
    ///       8          1.5e-3      1.3e-3       3.3e-4
    ///      12          1.4e-4      3.6e-4       8.2e-5
    ///      16          2.8e-5      1.3e-4       3.1e-5
    ///      24          2.3e-6      2.1e-5       3.1e-6
    ///      32          1.7e-6      4.1e-6       3.6e-7
    ///
    /// Time grows between the square and the cube of the number.
    int streams = 16;

    /// Every interface averages s and p before the next is met, as scalar transport codes do: for comparison with them.
    /// Wrong by about 1e-4 where one film lies on another of different index.
    bool average_polarisation = false;
};

/// Hemispherical fluxes. `surface` is the light that was neither scattered by a layer nor reflected by the base: all
/// interfaces, also those below a scattering layer, weakened by its extinction.
/// Throws std::invalid_argument as `check(stack)` does, for an angle outside 0–<90° and for streams outside 4–64.
Fluxes angular(const Stack& stack, const Light& light, AngularOptions options = {});

/// Radiance factor in a measuring geometry; a perfect diffuser in air reads 1. 45/0 needs no word on the azimuth of the
/// light: under a normal eye all are alike. `specular` is as `surface` above, at 45° or 8°. Throws as above.
Radiance angular(const Stack& stack, Geometry geometry, AngularOptions options = {});

/// Diffuse–diffuse reflectance 0–1 seen from inside the top medium, that is without the top interface, under light that
/// is Lambertian in that medium. Without layers: the base itself. Throws as above.
std::vector<double> angular_inside(const Stack& stack, AngularOptions options = {});

}  // namespace foretone::optics
