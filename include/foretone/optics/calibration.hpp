#pragma once
/// Where transport and Kubelka–Munk meet: the half-space that both solvers agree on, and the coefficients that follow
/// from it.
///
/// Symbols: µa absorption, µs′ = µs(1 − g) reduced scattering, σ = µa + µs′ extinction, 1/mm · ω = µs′/σ albedo · s =
/// √(1 − ω) · R reflectance of a half-space without interface under diffuse light · K, S Kubelka–Munk coefficients,
/// 1/mm.
///
/// For isotropic scattering
///   R = (1 − s)(1 + a s)/(1 + b s + c s²),
/// fitted to the angular solver at 32 streams: largest error 2.2e-6 for s 0.02–1 (ω 0–0.9996), exact at ω = 0 and 1.

#include "foretone/optics/kubelka_munk.hpp"

namespace foretone::optics {

namespace half_space {
inline constexpr double a = 0.34459904, b = 1.65410803, c = 0.63209035;
}

/// R of the albedo, 0–1. Throws std::invalid_argument outside 0–1.
double half_space_reflectance(double albedo);

/// ω of R, 0–1: the inverse, in closed form. Throws as above.
double half_space_albedo(double reflectance);

/// µa/µs′ = s²/(1 − s²) of R, for 0 < R ≤ 1: what a material of that reflectance absorbs. Throws std::invalid_argument
/// otherwise.
double absorption_over_scattering(double reflectance);

/// Two-flux coefficients in units of the extinction σ, and R∞ which they share with transport.
struct TwoFluxRates {
    double absorption;    ///< K/σ
    double scattering;    ///< S/σ
    double decay_over_s;  ///< κ/(σ s) squared, κ = √(K(K + 2S))
    double r_infinity;
};

/// The rates of s = √(1 − ω) and ω. S = (h0 + h1 s²)µs′; K = S(1 − R)²/2R makes the half-space that of transport. With
/// 1 − R = s M/D, D = 1 + b s + c s², M = 1 + b − a + (a + c)s, and ω = (1 − s)(1 + s), the factor 1 − s cancels:
///   K/σ = (h0 + h1 s²) s² (1 + s) M²/(2 D (1 + a s)),
/// good to rounding from ω = 0 to ω = 1. Unchecked: the innermost of the solver's loops.
[[gnu::always_inline]] inline TwoFluxRates two_flux_rates(double s, double albedo) {
    using namespace half_space;
    constexpr double h0 = 0.812, h1 = 0.057;  // fitted with the solver: see two_flux.hpp
    const double numerator = 1 + a * s, denominator = 1 + s * (b + c * s), m = (1 + b - a) + (a + c) * s;
    const double h = h0 + h1 * (s * s), reciprocal = 1 / (denominator * numerator);
    const double per_s2 = 0.5 * h * (1 + s) * (m * m) * reciprocal, k = per_s2 * (s * s), scattering = h * albedo;
    return {k, scattering, per_s2 * (k + 2 * scattering), (1 - s) * (numerator * numerator) * reciprocal};
}

/// Transport coefficients (µa, µs in 1/mm, g) to Kubelka–Munk's, as the fast solver has them. Unchecked.
KubelkaMunk from_transport(double absorption_per_mm, double scattering_per_mm, double anisotropy);

}  // namespace foretone::optics
