// Fresnel's equations in the Snell invariant.
//
// With β = n sinθ (equal on both sides) and q = n cosθ = √(n² − β²):
//   r_s = (q₁ − q₂)/(q₁ + q₂)            r_p = r_s (q₁q₂ − β²)/(q₁q₂ + β²)
// and q₁ − q₂ is written (n₁² − n₂²)/(q₁ + q₂). The usual difference of two nearly equal numbers is gone, so that
// interfaces between media of almost the same index (a varnish on a varnish) keep all their digits.

#include "foretone/optics/fresnel.hpp"

#include <algorithm>
#include <cmath>

#include "require.hpp"

namespace foretone::optics {
namespace {

void require_interface(double mu, double n_from, double n_to) {
    require(mu >= 0 && mu <= 1, "fresnel: cosine (0 to 1)", mu);
    require(n_from >= 1 && std::isfinite(n_from), "fresnel: index above (1 or more)", n_from);
    require(n_to >= 1 && std::isfinite(n_to), "fresnel: index below (1 or more)", n_to);
}

/// β² from the cosine; (1 − µ)(1 + µ) keeps digits near normal incidence.
double invariant(double mu, double n) { return n * n * (1 - mu) * (1 + mu); }

/// Walsh's integral of 2µ R(µ) over the hemisphere (Ryde 1931). n² − 1 and n⁴ − 1 are products, and ln n is taken of n
/// − 1: two terms of the order 1/(n − 1) cancel, and each must be good to rounding.
double walsh(double n) {
    const double n2 = n * n, n4 = n2 * n2, p = n2 + 1, m = (n - 1) * (n + 1), mp = m * p;
    const double rational =
        0.5 + (n - 1) * (3 * n + 1) / (6 * (n + 1) * (n + 1)) - 2 * n * n2 * (n2 + 2 * n - 1) / (p * mp);
    const double inward = n2 * m * m / (p * p * p) * std::log((n - 1) / (n + 1));
    const double outward = 8 * n4 * (n4 + 1) / (p * mp * mp) * std::log1p(n - 1);
    return rational + inward + outward;
}

}  // namespace

double refracted_cosine(double mu, double n_from, double n_to) {
    require_interface(mu, n_from, n_to);
    return std::sqrt(std::max(0.0, 1 - invariant(mu, n_from) / (n_to * n_to)));
}

Reflectance fresnel_invariant(double beta_squared, double n_from, double n_to) {
    const double from2 = n_from * n_from, to2 = n_to * n_to;
    if (beta_squared >= from2 || beta_squared >= to2) return {1, 1};
    const double q1 = std::sqrt(from2 - beta_squared), q2 = std::sqrt(to2 - beta_squared);
    const double rs = (n_from - n_to) * (n_from + n_to) / ((q1 + q2) * (q1 + q2));
    const double rp = rs * (q1 * q2 - beta_squared) / (q1 * q2 + beta_squared);
    return {rs * rs, rp * rp};
}

Reflectance fresnel(double mu, double n_from, double n_to) {
    require_interface(mu, n_from, n_to);
    if (n_from == n_to) return {0, 0};
    return fresnel_invariant(invariant(mu, n_from), n_from, n_to);
}

double diffuse_external(double n) {
    require(n >= 1 && n <= 10, "fresnel: index (1 to 10)", n);
    // The two large terms cancel as n → 1, losing digits as 1/(n − 1).
    constexpr double near_one = 1.0001;
    return n < near_one ? walsh(near_one) * (n - 1) / (near_one - 1) : walsh(n);
}

double diffuse_internal(double n) { return 1 - (1 - diffuse_external(n)) / (n * n); }

}  // namespace foretone::optics
