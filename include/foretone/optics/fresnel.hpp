#pragma once
/// Reflection at a smooth interface between two clear media.
///
/// Symbols: n refractive index · µ cosine of the angle in the medium the light comes from · β = n sinθ, the Snell
/// invariant: the same in every layer a ray crosses.

namespace foretone::optics {

/// Cosine of the refracted angle, 0–1; 0 at and beyond total reflection.
/// Throws std::invalid_argument unless 0 ≤ µ ≤ 1 and both indices are finite and ≥ 1.
double refracted_cosine(double mu, double n_from, double n_to);

/// Share of the flux reflected, by polarisation, each 0–1.
struct Reflectance {
    double s;  ///< electric field across the plane of incidence
    double p;  ///< electric field in the plane of incidence
    double unpolarised() const { return 0.5 * (s + p); }
};

/// Fresnel reflectance at cosine `mu` in the medium of index `n_from`; 1 under total reflection. Throws as
/// `refracted_cosine`.
Reflectance fresnel(double mu, double n_from, double n_to);

/// The same from the Snell invariant squared, the same seen from both sides; 1 where β reaches either index. Unchecked.
Reflectance fresnel_invariant(double beta_squared, double n_from, double n_to);

/// Reflectance of uniform diffuse light met from outside (index 1) by a medium of index `n`; Walsh's closed form as
/// given by Ryde (1931). Throws std::invalid_argument unless 1 ≤ n ≤ 10. Absolute error below 1e-11 for n ≥ 1.0001;
/// below that index a straight line to 0 at n = 1, wrong by less than 1e-8.
double diffuse_external(double n);

/// Reflectance of uniform diffuse light met from inside: 1 − (1 − external)/n², which is reciprocity.
double diffuse_internal(double n);

}  // namespace foretone::optics
