// CIECAM16: cone signals, adaptation to the light, compression as a receptor compresses, and correlates of what is
// seen.
//
// Symbols: R, G, B cone signals = M16·XYZ · D degree of adaptation · L_A adapting luminance, cd/m² · F_L
// luminance-level factor · n = Y_b/Y_w · a, b red–green and yellow–blue signals · A achromatic response · J lightness,
// C chroma, h hue.
//
//   R_c = (D·Y_w/R_w + 1 − D) R
//   f(q) = 400 x/(x + 27.13),  x = (F_L q/100)^0.42,  straight below q = 0.26 and above 150
//   J = 100 (A/A_w)^(c z),  C = t^0.9 √(J/100) (1.64 − 0.29ⁿ)^0.73
//
// The straight ends (CIE 248:2022) make the model finite for every color, where CAM16 of 2017 had no answer for
// negative signals; between them both are the same. With D = 1 all that follows depends on R/R_w alone: a color moved
// to another white by `adapt(…, Cat::cat16)` then looks exactly as it did, and so a swatch on a screen and these
// numbers agree.

#include "foretone/color/ciecam16.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include <glm/vec3.hpp>

#include "foretone/color/cones.hpp"
#include "foretone/base/number.hpp"
#include "matrix.hpp"

namespace foretone::color {
namespace {

constexpr double radian = std::numbers::pi / 180;

// The compression f and its two straight ends.
class Compression {
public:
    explicit Compression(double f_l) : f_l_(f_l) {}

    double operator()(double q) const {
        if (q < low) return curve(low) * q / low;
        if (q > high) return curve(high) + slope(high) * (q - high);
        return curve(q);
    }

private:
    static constexpr double low = 0.26, high = 150;

    double curve(double q) const {
        const double x = std::pow(f_l_ * q / 100, 0.42);
        return 400 * x / (x + 27.13);
    }
    // df/dq = 400·27.13/(x + 27.13)² · 0.42 x/q
    double slope(double q) const {
        const double x = std::pow(f_l_ * q / 100, 0.42);
        return 400 * 27.13 / ((x + 27.13) * (x + 27.13)) * 0.42 * x / q;
    }

    double f_l_;
};

// F_L = k⁴ L_A + (1 − k⁴)² (5 L_A)^(1/3)/10,  k = 1/(5 L_A + 1)
double luminance_factor(double l_a) {
    const double k4 = std::pow(1 / (5 * l_a + 1), 4);
    return k4 * l_a + 0.1 * (1 - k4) * (1 - k4) * std::cbrt(5 * l_a);
}

double degree_of_adaptation(const Viewing& view) {
    if (view.adapts_wholly) return 1;
    return std::clamp(view.f * (1 - std::exp((-view.adapting_cd_per_m2 - 42) / 92) / 3.6), 0.0, 1.0);
}

double achromatic(const glm::dvec3& r) { return 2 * r.x + r.y + r.z / 20; }

// Hue quadrature: the four unique hues at h = 20.14 red, 90 yellow, 164.25 green, 237.53 blue, with their
// eccentricities.
double quadrature(double h) {
    struct Unique {
        double h, e, q;
    };
    constexpr std::array<Unique, 5> unique = {
        {{20.14, 0.8, 0}, {90, 0.7, 100}, {164.25, 1.0, 200}, {237.53, 1.2, 300}, {380.14, 0.8, 400}}};
    const double at = h < unique[0].h ? h + 360 : h;
    std::size_t i = 0;
    while (i + 2 < unique.size() && at >= unique[i + 1].h) ++i;
    const double below = (at - unique[i].h) / unique[i].e, above = (unique[i + 1].h - at) / unique[i + 1].e;
    return unique[i].q + 100 * below / (below + above);
}

void check(const Viewing& view) {
    for (const double v : {view.adapting_cd_per_m2, view.background_y, view.f, view.c, view.n_c})
        if (!(v > 0) || !std::isfinite(v))
            throw std::invalid_argument("appearance: a field, background or surround of " + base::shortest(v));
}

}  // namespace

Viewing in_a_room(const Xyz& white) {
    Viewing view{white};
    view.adapting_cd_per_m2 = 500 * 0.2 / std::numbers::pi;
    return view;
}

Appearance appearance(const Xyz& c, const Viewing& view) {
    check(view);
    const glm::dmat3 cone = cone_matrix(Cat::cat16);
    const glm::dvec3 white = cones_of_white(cone, view.white, "white");
    const double f_l = luminance_factor(view.adapting_cd_per_m2), n = view.background_y / view.white.y;
    const double z = 1.48 + std::sqrt(n), n_bb = 0.725 * std::pow(n, -0.2), d = degree_of_adaptation(view);
    const Compression f(f_l);
    const auto responses = [&](const glm::dvec3& v) {
        const glm::dvec3 adapted = (d * view.white.y / white + (1 - d)) * v;
        return glm::dvec3(f(adapted.x), f(adapted.y), f(adapted.z));
    };
    const glm::dvec3 r = responses(cone * vec(c));
    const double a = r.x - 12 * r.y / 11 + r.z / 11, b = (r.x + r.y - 2 * r.z) / 9;
    const double a_w = achromatic(responses(white)) * n_bb;

    Appearance out;
    const double grey = std::hypot(a, b);
    out.hue_deg = grey > 1e-9 ? std::fmod(std::atan2(b, a) / radian + 360, 360) : 0;
    out.quadrature = grey > 1e-9 ? quadrature(out.hue_deg) : 0;
    // A color darker than black, which only slips of the sums can make, is black.
    out.lightness = 100 * std::pow(std::max(0.0, achromatic(r) * n_bb) / a_w, view.c * z);
    const double f_l4 = std::pow(f_l, 0.25), root = std::sqrt(out.lightness / 100);
    out.brightness = 4 / view.c * root * (a_w + 4) * f_l4;
    const double eccentricity = (std::cos(out.hue_deg * radian + 2) + 3.8) / 4;
    // The sum is 0.305 above that of the responses as written here: CIE adds 0.1 to each.
    const double t = 50000.0 / 13 * view.n_c * n_bb * eccentricity * grey / (r.x + r.y + 1.05 * r.z + 0.305);
    out.chroma = std::pow(std::max(t, 0.0), 0.9) * root * std::pow(1.64 - std::pow(0.29, n), 0.73);
    out.colorfulness = out.chroma * f_l4;
    out.saturation = out.brightness > 0 ? 100 * std::sqrt(out.colorfulness / out.brightness) : 0;
    return out;
}

Ucs ucs(const Appearance& seen) {
    const double m = std::log1p(0.0228 * seen.colorfulness) / 0.0228;
    return {1.7 * seen.lightness / (1 + 0.007 * seen.lightness), m * std::cos(seen.hue_deg * radian),
            m * std::sin(seen.hue_deg * radian)};
}

double delta_e_ucs(const Ucs& p, const Ucs& q) { return std::hypot(p.j - q.j, p.a - q.a, p.b - q.b); }

}  // namespace foretone::color
