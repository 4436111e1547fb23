#pragma once
// The microfacet model of a rough surface: GGX slopes, height-correlated Smith shadowing, Fresnel (Walter et al. 2007;
// Heitz 2014).

namespace foretone::optics {

struct Direction {
    double x, y, z;  ///< z along the normal
};

/// f_r cos θ_out of light coming from `from` and leaving to `to` (both unit, pointing away from the surface): the share
/// of the flux scattered into a unit solid angle. 0 if either is below the horizon.
double scattered(double alpha, double n, const Direction& from, const Direction& to);

}  // namespace foretone::optics
