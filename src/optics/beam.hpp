#pragma once
// A scattering slab lit by a beam and seen from one direction.
//
// Symbols, lengths in units of 1/σ: K, S, κ, R∞ of calibration.hpp · P = K + 2S · τ depth · ω albedo · m = 1/µ of the
// beam, m′ of the eye · q = ωm/2, q′ = ωm′/2: scattered light starts half up, half down · E = exp(−κτ), e = exp(−mτ),
// e′ = exp(−m′τ) · r, t the slab's reflectance and transmittance of diffuse light.
//
// The two fluxes under a beam have the particular solution A exp(−mz) down and B exp(−mz) up,
//   A = q(P + m)/(κ² − m²),   B = q(P − m)/(κ² − m²),
// from which the homogeneous fields that would enter at either face are taken off: up B − rA − tBe, down Ae − tA − rBe.
// These have a removable pole at m = κ, which ordinary wood with ordinary dye meets. With P/(P + κ) = (1 + R∞)/2,
//   β = B − R∞A = (1 + R∞)q/(κ + m),   a = q(P + m)/(κ + m),   φ = (E − e)/(κ − m),   X = aφ,
// the pole is gone into φ, which has a series, and nothing needs a guard that bends the physics:
//   up = β(1 − te) + tR∞X,   down = −(t/E)X − reβ.
// The eye sees at depth z the diffuse source (ω/2)(F↓ + F↑), and light scattered once. By reciprocity diffuse light
// entering at the top or the bottom is seen as the beam's up and down with m′ for m; the beam itself, with W = (1 −
// ee′)/(m + m′), as
//   β′[aW + e′(1 − R∞r)X] − R∞(t/E)XX′ + β(q′W + e(t/E)X′ + ree′β′)   diffuse source
//   q m′W/2                                                        scattered once.
// A half-space is τ → ∞: E, e, e′, t, X → 0.
//
// Two fluxes know no angle, and underestimate the source under a surface that little light comes back from; the diffuse
// source is multiplied by `source_gain`. All fits of this solver are stated in two_flux.hpp.

#include <cmath>

namespace foretone::optics {

inline constexpr double source_gain = 1.065;

/// Light that leaves through the top surface comes from the cone that refraction lets out, its middle ray at 45°
/// outside: half of the light of a perfect diffuser leaves inside 45°, half outside.
inline constexpr double middle_sine = 0.70710678118654752;

/// How far the radiance of the middle ray stands for what leaves; the rest leaves as if it were diffuse within. Without
/// a step of index there is no cone and the hemispherical flux is known as it is; from n = 1.2 on this is 0.94 and
/// more (0.99 from n = 1.34).
inline double cone_weight(double n) { return 1 - std::pow(n, -16); }

/// For a 45/0 reading, whose eye looks along the middle of the cone: the share of its surplus over diffuse light that
/// is missing from what the surface sends back.
inline constexpr double normal_for_cone = 0.8;

/// The sines outside, in air, of the beam and of the eye's direction.
struct Rays {
    double beam_sine, eye_sine;
};

/// Cosine in a medium of index n ≥ 1.
inline double cosine_in(double n, double sine_outside) {
    return std::sqrt((n - sine_outside) * (n + sine_outside)) / n;
}

}  // namespace foretone::optics
