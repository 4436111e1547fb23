// f_r cos θ_o = D(h) G(i, o) F(i·h)/(4 cos θ_i), h the half vector:
//   D = α²/(π (cos²θ_h (α² − 1) + 1)²),   G = 1/(1 + Λ(i) + Λ(o)),   Λ(v) = (√(1 + α² tan²θ_v) − 1)/2.
// The denominator of D is written α² cos²θ_h + sin²θ_h with sin²θ_h from the horizontal part of h: for a smooth film (α
// ≈ 0.01) near the mirror direction, 1 − cos²θ_h would have lost the digits that matter.

#include "microfacet.hpp"

#include <cmath>
#include <numbers>

#include "foretone/optics/fresnel.hpp"

namespace foretone::optics {
namespace {

double smith_lambda(double alpha, double cosine) {
    return 0.5 * (std::sqrt(1 + alpha * alpha * (1 - cosine) * (1 + cosine) / (cosine * cosine)) - 1);
}

}  // namespace

double scattered(double alpha, double n, const Direction& from, const Direction& to) {
    if (from.z <= 0 || to.z <= 0) return 0;
    const Direction sum{from.x + to.x, from.y + to.y, from.z + to.z};
    const double length2 = sum.x * sum.x + sum.y * sum.y + sum.z * sum.z;
    const double tilt2 = (sum.x * sum.x + sum.y * sum.y) / length2, up2 = sum.z * sum.z / length2;
    const double spread = alpha * alpha * up2 + tilt2;
    const double d = alpha * alpha / (std::numbers::pi * spread * spread);
    const double g = 1 / (1 + smith_lambda(alpha, from.z) + smith_lambda(alpha, to.z));
    // Cosine to the half vector squared is |i + o|²/4, so β² on the facet is 1 − that.
    const double f = fresnel_invariant(1 - 0.25 * length2, 1, n).unpolarised();
    return d * g * f / (4 * from.z);
}

}  // namespace foretone::optics
