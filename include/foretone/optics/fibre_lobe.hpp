#pragma once
/// The highlight of wood fibres under a film: why figure shimmers when the light or the eye moves.
///
/// A fibre is a thin cylinder: it mirrors light into a cone about itself. Fibres in wood lie nearly parallel, under a
/// surface of index n that bends light on the way in and out. With u the fibre's direction and ψ the angle of a ray
/// inside from the plane across u, light leaves where ψ_r = −ψ_i, spread by β:
///
///     f = k T_i T_r g(β, ψ_h)/cos²(ψ_d/2),   ψ_h = ψ_r + ψ_i,   ψ_d = ψ_r − ψ_i,   g(β, ψ) = exp(−ψ²/2β²)/(√(2π) β)
///
/// (Marschner, Westin, Arbree & Moon 2005). f is a BRDF, 1/sr; k is the fibres' reflectance, as a spectrum; T are the
/// Fresnel transmittances of the surface in and out.

namespace foretone::optics {

/// A unit vector; x and y in the surface, z along its normal.
struct Unit {
    double x = 0, y = 0, z = 1;
};

/// A fibre that rises by `rise` out of the surface and turns by `turn` in it, from +x toward +y; radians.
Unit fibre_direction(double rise, double turn);

/// The direction inside a medium of index `n` of a ray that points to `outside`, away from the surface on both sides (z
/// > 0). Throws std::invalid_argument for n outside 1–3 or a direction at or below the horizon.
Unit refracted(const Unit& outside, double n);

/// One evaluation. Angles in radians.
struct FibreLobe {
    double psi_in = 0, psi_out = 0;   ///< light's and eye's, ψ_i and ψ_r
    double half = 0, difference = 0;  ///< ψ_h and ψ_d
    double gauss = 0;                 ///< g(β, ψ_h), 1/rad
    double over_k = 0;                ///< g/cos²(ψ_d/2)
    double t_in = 1, t_out = 1;       ///< Fresnel transmittances, unpolarised

    /// f/k, the whole of it.
    double value() const { return t_in * t_out * over_k; }
};

/// The lobe for light from `to_light` and an eye at `to_eye` (both point away from the surface, z > 0), fibres along
/// `fibre`, under a surface of index `n` (1: none), of width `beta` (> 0). Symmetric in light and eye. Throws as
/// `refracted`, and for β ≤ 0.
FibreLobe fibre_lobe(double n, double beta, const Unit& fibre, const Unit& to_light, const Unit& to_eye);

}  // namespace foretone::optics
