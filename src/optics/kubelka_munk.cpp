// The Kubelka–Munk slab without overflow or cancellation.
//
// With κ = Kd, σ = Sd and y = 2√(κ(κ + 2σ)), twice the decay over the thickness, the textbook forms
//   R = σ sinh(y/2)/D,   T = (y/2)/D,   D = (κ + σ) sinh(y/2) + (y/2) cosh(y/2)
// are multiplied through by 4 exp(−y/2)/y:
//   R = σ q/(1 + e + (κ + σ)q),   T = 2√e/(same),   e = exp(−y),   q = 2(1 − e)/y.
// Every term is positive and bounded: nothing overflows for thick slabs, q → 2 as y → 0 (no absorption or no
// thickness), and S = 0 gives exp(−κ) with no special case. 1 − e comes from expm1.

#include "foretone/optics/kubelka_munk.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "require.hpp"

namespace foretone::optics {
namespace {

/// (1 − exp(−y))/y, 1 at 0.
double mean_decay(double y) { return y > 0 ? -std::expm1(-y) / y : 1.0; }

}  // namespace

Panel add(const Panel& upper, const Panel& lower) {
    // 1 − r r' may round to 0 only if both are 1; then both transmittances are 0 to rounding and so is what is
    // exchanged.
    const double between = 1 / std::max(1 - upper.r_below * lower.r_above, std::numeric_limits<double>::epsilon());
    return {upper.r_above + upper.t_down * lower.r_above * upper.t_up * between,
            lower.r_below + lower.t_up * upper.r_below * lower.t_down * between, upper.t_down * lower.t_down * between,
            lower.t_up * upper.t_up * between};
}

Panel slab(double absorption_per_mm, double scattering_per_mm, double thickness_mm) {
    require(absorption_per_mm >= 0 && std::isfinite(absorption_per_mm), "kubelka_munk: absorption (0 or more)",
            absorption_per_mm);
    require(scattering_per_mm >= 0 && std::isfinite(scattering_per_mm), "kubelka_munk: scattering (0 or more)",
            scattering_per_mm);
    require(thickness_mm >= 0, "kubelka_munk: thickness (0 or more)", thickness_mm);
    if (std::isinf(thickness_mm)) {
        require(absorption_per_mm > 0 || scattering_per_mm > 0,
                "kubelka_munk: infinite slab's absorption and scattering", 0);
        const double r = scattering_per_mm > 0 ? r_infinity(absorption_per_mm / scattering_per_mm) : 0.0;
        return {r, r, 0, 0};
    }
    const double kappa = absorption_per_mm * thickness_mm, sigma = scattering_per_mm * thickness_mm;
    const double y = 2 * std::sqrt(kappa) * std::sqrt(kappa + 2 * sigma);
    const double q = 2 * mean_decay(y);
    const double below = 1 + std::exp(-y) + (kappa + sigma) * q;
    const double r = sigma * q / below, t = 2 * std::exp(-0.5 * y) / below;
    return {r, r, t, t};
}

double r_infinity(double k_over_s) {
    require(k_over_s >= 0, "kubelka_munk: K/S (0 or more)", k_over_s);
    // The root of R² − 2(1 + K/S)R + 1 below 1, as a reciprocal: no difference of large numbers when K/S is large.
    return 1 / (1 + k_over_s + std::sqrt(k_over_s) * std::sqrt(k_over_s + 2));
}

double k_over_s(double r_infinity) {
    require(r_infinity > 0 && r_infinity <= 1, "kubelka_munk: reflectance (above 0, to 1)", r_infinity);
    return (1 - r_infinity) * (1 - r_infinity) / (2 * r_infinity);
}

}  // namespace foretone::optics
