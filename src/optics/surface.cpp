// The first surface as an instrument reads it.
//
// 45/0: the radiance factor of the lobe towards the normal, π f_r, one evaluation with the half vector at 22.5°.
// d/8 included: all that a hemisphere of unit radiance sends by the surface to the eye at 8°: the regular reflectance
// F(8°). Facets that shadow each other pass their light on to other facets rather than swallow it, so no energy is
// taken off for roughness. d/8 excluded: a trap of 5° half angle about the mirror direction is dark (common practice
// for gloss traps). What the lobe would have brought from there is taken off; by reciprocity that is the flux a ray
// from the eye's direction sends into the trap,
//   R = F(8°) − ∫_trap f_r cosθ dω,
// over polar angles (ψ, φ) about the mirror direction, ψ = 2α tan v on the lobe's own width.

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>
#include <string>

#include "foretone/base/angle.hpp"
#include "foretone/base/number.hpp"
#include "foretone/optics/fresnel.hpp"
#include "foretone/optics/gloss.hpp"
#include "foretone/optics/quadrature.hpp"
#include "microfacet.hpp"

namespace foretone::optics {
namespace {

using base::degree;
constexpr double trap = 5 * degree;
constexpr double eye_angle = 8 * degree;

double regular(double angle, double n) { return fresnel(std::cos(angle), 1, n).unpolarised(); }

double into_trap(double alpha, double n) {
    constexpr int rings = 16, spokes = 8;
    const Direction eye{-std::sin(eye_angle), 0, std::cos(eye_angle)};
    const double width = 2 * alpha;
    const Nodes ring = gauss_legendre(rings, 0, std::atan(trap / width));
    double sum = 0;
    for (std::size_t i = 0; i < ring.x.size(); ++i) {
        const double t = std::tan(ring.x[i]), psi = width * t;
        const double weight = ring.w[i] * width * (1 + t * t) * std::sin(psi) * std::numbers::pi / spokes;
        // Half a turn, the other half its mirror image (hence π, and twice below); midpoints of a periodic function.
        for (int j = 0; j < spokes; ++j) {
            const double phi = std::numbers::pi * (j + 0.5) / spokes;
            const double a = std::sin(psi) * std::cos(phi), b = std::sin(psi) * std::sin(phi), c = std::cos(psi);
            const Direction to{c * std::sin(eye_angle) + a * std::cos(eye_angle), b,
                               c * std::cos(eye_angle) - a * std::sin(eye_angle)};
            sum += 2 * weight * scattered(alpha, n, eye, to);
        }
    }
    return sum;
}

}  // namespace

double surface_radiance(double alpha, double n, Geometry geometry) {
    if (!(alpha >= 0 && alpha <= 1))
        throw std::invalid_argument("gloss: roughness (0 to 1) is " + base::shortest(alpha));
    if (!(n >= 1 && n <= 3)) throw std::invalid_argument("gloss: index (1 to 3) is " + base::shortest(n));
    if (geometry == Geometry::d8_included) return regular(eye_angle, n);
    if (alpha == 0) return 0;
    if (geometry == Geometry::d8_excluded) return std::max(0.0, regular(eye_angle, n) - into_trap(alpha, n));
    const double light = 45 * degree;
    return std::numbers::pi * scattered(alpha, n, {-std::sin(light), 0, std::cos(light)}, {0, 0, 1});
}

}  // namespace foretone::optics
