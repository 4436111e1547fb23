#pragma once
/// Diffuse light in layers: the four quantities of a layer, how layers add, and the Kubelka–Munk slab.
///
/// Symbols: K absorption and S scattering coefficient, 1/mm · d thickness, mm · R∞ reflectance of a slab without end.
/// Sources: Kubelka & Munk 1931; Kubelka 1948.

namespace foretone::optics {

/// One layer, or any number of layers, to diffuse light: reflectance met from above and from below, transmittance
/// downward and upward; shares of the flux that arrives, each 0–1.
struct Panel {
    double r_above = 0;
    double r_below = 0;
    double t_down = 1;
    double t_up = 1;
};

/// `upper` laid on `lower`, all reflections between them summed. Two panels that both reflect everything where they
/// meet pass nothing to each other.
Panel add(const Panel& upper, const Panel& lower);

/// The Kubelka–Munk slab. K, S ≥ 0 and finite, d ≥ 0 or infinite; good to rounding for K → 0, S → 0, d → 0 and d → ∞.
/// Throws std::invalid_argument otherwise, and for an infinite slab of K = S = 0.
Panel slab(double absorption_per_mm, double scattering_per_mm, double thickness_mm);

/// R∞ of the ratio K/S ≥ 0 (infinity gives 0).
double r_infinity(double k_over_s);

/// K/S = (1 − R)²/2R of R∞, 0 < R ≤ 1.
double k_over_s(double r_infinity);

/// Kubelka–Munk coefficients, 1/mm; calibration.hpp has them from transport's.
struct KubelkaMunk {
    double absorption_per_mm;
    double scattering_per_mm;
};

}  // namespace foretone::optics
