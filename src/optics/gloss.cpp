// Specular gloss after ISO 2813, and the surface's share of a reading.
//
// The instrument: a source image of 0.75° (in the plane of incidence) × 2.5° at 20, 60 or 85°, and a receptor aperture
// about the mirror direction of 1.8 × 3.6°, 4.4 × 11.7° or 4.0 × 6.0°. A perfect surface's gloss is 100 times its
// Fresnel reflectance at that angle over that of black glass (n = 1.567). A rough one's is that, times the share of the
// flux a perfect one would send into the receptor that it still sends there. The source is uniform over its image;
// every source point is integrated over the receptor.
//
// Conditioning: the lobe may be a hundredth of the aperture. Offsets from the mirror direction are the tangent of
// the variable of integration on the lobe's own width (α in the plane; α cosθ across it, where grazing incidence
// narrows it): the lobe's heavy tails become a gentle function on a bounded interval, for any α.

#include "foretone/optics/gloss.hpp"

#include <array>
#include <cmath>

#include "foretone/base/angle.hpp"
#include "foretone/optics/fresnel.hpp"
#include "foretone/optics/quadrature.hpp"
#include "microfacet.hpp"
#include "require.hpp"

namespace foretone::optics {
namespace {

using base::degree;
constexpr double black_glass = 1.567;

void require_surface(double alpha, double n) {
    require(alpha >= 0 && alpha <= 1, "gloss: roughness (0 to 1)", alpha);
    require(n >= 1 && n <= 3, "gloss: index (1 to 3)", n);
}

/// Half apertures, radian: in the plane of incidence and across it.
struct Aperture {
    double in_plane, across;
};

constexpr Aperture source{0.375 * degree, 1.25 * degree};

Aperture receptor(double angle_deg) {
    if (angle_deg == 20) return {0.9 * degree, 1.8 * degree};
    if (angle_deg == 60) return {2.2 * degree, 5.85 * degree};
    require(angle_deg == 85, "gloss: angle (20, 60 or 85)", angle_deg);
    return {2.0 * degree, 3.0 * degree};
}

/// The direction `a` further from the normal than `angle` in the plane of incidence, `b` out of that plane.
Direction turned(double angle, double a, double b, double side) {
    return {side * std::cos(b) * std::sin(angle + a), std::sin(b), std::cos(b) * std::cos(angle + a)};
}

constexpr int receptor_nodes = 24;

/// Nodes on ±half crowded about `centre` on the scale `width`: x = centre + width·tan v, from the rule on ±1 for v.
struct Crowded {
    Crowded(const Nodes& unit, double half, double centre, double width) {
        const double low = std::atan((-half - centre) / width), high = std::atan((half - centre) / width);
        for (std::size_t i = 0; i < x.size(); ++i) {
            const double t = std::tan(0.5 * (low + high) + 0.5 * (high - low) * unit.x[i]);
            x[i] = centre + width * t;
            w[i] = 0.5 * (high - low) * unit.w[i] * width * (1 + t * t);
        }
    }
    std::array<double, receptor_nodes> x{}, w{};
};

/// The source image and sums over it: a in the plane of incidence, b across it.
struct SourceImage {
    explicit SourceImage(double angle_deg)
        : angle(angle_deg * degree),
          in_plane(gauss_legendre(4, -source.in_plane, source.in_plane)),
          across(gauss_legendre(6, 0, source.across)) {}  // the other half is its mirror image

    template <class Value>
    double sum(Value value) const {
        double total = 0;
        for (std::size_t i = 0; i < in_plane.x.size(); ++i) {
            for (std::size_t j = 0; j < across.x.size(); ++j) {
                total += in_plane.w[i] * across.w[j] * value(in_plane.x[i], across.x[j]);
            }
        }
        return total;
    }

    /// Flux a perfect surface of index n sends on.
    double mirrored(double n) const {
        return sum([&](double a, double b) { return fresnel(turned(angle, a, b, -1).z, 1, n).unpolarised(); });
    }

    double angle;
    Nodes in_plane, across;
};

/// Flux into the receptor for unit flux from one source point.
double received(double alpha, double n, double angle, double a, double b, const Aperture& to, const Nodes& unit) {
    const Crowded in_plane(unit, to.in_plane, a, alpha);
    const Direction from = turned(angle, a, b, -1);
    double sum = 0;
    for (std::size_t i = 0; i < in_plane.x.size(); ++i) {
        // Away from the peak the lobe is as much wider across as it is far off in the plane.
        const double off = (in_plane.x[i] - a) / alpha;
        const Crowded across(unit, to.across, -b, alpha * std::cos(angle) * std::sqrt(1 + off * off));
        for (std::size_t j = 0; j < across.x.size(); ++j) {
            const Direction eye = turned(angle, in_plane.x[i], across.x[j], 1);
            sum += in_plane.w[i] * across.w[j] * std::cos(across.x[j]) * scattered(alpha, n, from, eye);
        }
    }
    return sum;
}

/// Gloss of a perfect surface: the ratio of reflectances at the instrument's angle, as ISO 2813 defines it.
double smooth_gloss(double n, double angle_deg) {
    const double mu = std::cos(angle_deg * degree);
    return 100 * fresnel(mu, 1, n).unpolarised() / fresnel(mu, 1, black_glass).unpolarised();
}

}  // namespace

double gloss_units(double alpha, double n, double angle_deg) {
    require_surface(alpha, n);
    const Aperture to = receptor(angle_deg);
    const double smooth = smooth_gloss(n, angle_deg);
    if (alpha == 0 || smooth == 0) return smooth;
    const SourceImage image(angle_deg);
    const Nodes unit = gauss_legendre(receptor_nodes, -1, 1);
    const double flux = image.sum([&](double a, double b) { return received(alpha, n, image.angle, a, b, to, unit); });
    return smooth * flux / image.mirrored(n);
}

}  // namespace foretone::optics
