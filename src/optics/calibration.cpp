// The half-space of isotropic scattering and its inverse.
//
// R = (1 − s)(1 + a s)/(1 + b s + c s²) is a quadratic in s for given R:
//   q s² + p s − (1 − R) = 0,   p = 1 − a + R b,   q = a + R c,
// with p and q positive, so the root s = 2(1 − R)/(p + √(p² + 4q(1 − R))) has no cancellation. s → 1 as R → 0; there
// 1 − s² = ω loses digits in proportion to R itself, and ω is taken from 1 − s = R·(1 + b s + c s²)/(1 + a s) instead.

#include "foretone/optics/calibration.hpp"

#include <algorithm>
#include <cmath>

#include "require.hpp"

namespace foretone::optics {
namespace {

struct Albedo {
    double s_squared, albedo;
};

Albedo albedo_of(double r) {
    using namespace half_space;
    const double p = 1 - a + r * b, q = a + r * c;
    const double s = 2 * (1 - r) / (p + std::sqrt(p * p + 4 * q * (1 - r)));
    return {s * s, std::min(r * (1 + s * (b + c * s)) / (1 + a * s) * (1 + s), 1.0)};
}

}  // namespace

double half_space_reflectance(double albedo) {
    require(albedo >= 0 && albedo <= 1, "half-space: albedo (0 to 1)", albedo);
    const double s = std::sqrt(1 - albedo);
    return albedo / (1 + s) * (1 + half_space::a * s) / (1 + s * (half_space::b + half_space::c * s));
}

double half_space_albedo(double reflectance) {
    require(reflectance >= 0 && reflectance <= 1, "half-space: reflectance (0 to 1)", reflectance);
    return albedo_of(reflectance).albedo;
}

double absorption_over_scattering(double reflectance) {
    require(reflectance > 0 && reflectance <= 1, "half-space: reflectance (above 0, to 1)", reflectance);
    const Albedo found = albedo_of(reflectance);
    return found.s_squared / found.albedo;
}

KubelkaMunk from_transport(double absorption_per_mm, double scattering_per_mm, double anisotropy) {
    const double reduced = (1 - anisotropy) * scattering_per_mm, extinction = absorption_per_mm + reduced;
    if (!(extinction > 0)) return {0, 0};
    const TwoFluxRates rates = two_flux_rates(std::sqrt(absorption_per_mm / extinction), reduced / extinction);
    return {rates.absorption * extinction, rates.scattering * extinction};
}

}  // namespace foretone::optics
