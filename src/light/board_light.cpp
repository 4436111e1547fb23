// The room: one light beyond the board, an eye on this side, and a dim rest.
//
// All lengths are in diagonals of the board, so that a box lid and a table top are framed alike. The eye looks from 30°
// off the normal and almost two diagonals away. A facet mirrors the light into the eye if its normal is their half
// vector h: its slope is (h_x/h_z, h_y/h_z). A window is a patch of such slopes; what a film of GGX facets shows of it
// is
//
//   shine · P(slopes of the window about the surface's own tilt),   shine = L F(i·h) (i·h)/(o_z h_z),
//
// L the window's radiance over that of a white diffuser beside the board, F Fresnel's reflectance, o the eye, P the
// share of the facets (optics/facets.hpp): f_r cosθ_i dω_i = F D (i·h)/o_z dω_h, and D dω_h is P's density over h_z.
// Shadowing of facets by each other is left out: under 6 % at these angles for roughness up to 0.5.

#include "board_light.hpp"

#include <array>
#include <cmath>
#include <numbers>

#include "foretone/optics/facets.hpp"
#include "foretone/optics/fresnel.hpp"
#include "foretone/grain/rows.hpp"

namespace foretone::light {
namespace {
using optics::Unit;

constexpr double degree = std::numbers::pi / 180;
constexpr double eye_zenith = 30 * degree, eye_distance = 1.8;

// A light as it is set up: angles seen from the middle of the board.
struct Setup {
    double zenith_deg, azimuth_deg;  // azimuth from straight beyond (−y), + to the right
    double half_across_deg, half_up_deg;
    double distance;  // diagonals
    double direct;    // its share of the illumination
};

// A window of 30 × 28 degrees whose lower edge is mirrored near the far edge of the board, and a shaded lamp of 18
// degrees whose mirror image lies beyond the far corner: its glow, not its glare, is on the board.
constexpr Setup window_setup{53, -26, 15, 14, 40, 0.75};
constexpr Setup lamp_setup{56, 34, 9, 9, 4, 0.60};
constexpr Setup passing_setup{42, 0, 5, 5, 8, 0.85};

Unit unit(double x, double y, double z) {
    const double length = std::sqrt(x * x + y * y + z * z);
    return {x / length, y / length, z / length};
}

Unit towards(double zenith, double azimuth) {
    return {std::sin(zenith) * std::sin(azimuth), -std::sin(zenith) * std::cos(azimuth), std::cos(zenith)};
}

struct Half {
    double slope_x, slope_y, cosine;  // cosine of the light to the half vector
    double up;                        // its own z
};

Half half_vector(const Unit& light, const Unit& eye) {
    const Unit h = unit(light.x + eye.x, light.y + eye.y, light.z + eye.z);
    return {h.x / h.z, h.y / h.z, light.x * h.x + light.y * h.y + light.z * h.z, h.z};
}

Setup setup_of(const Lighting& lighting) {
    return lighting.view == View::lamp ? lamp_setup : lighting.view == View::passing ? passing_setup : window_setup;
}

}  // namespace

Room::Room(const Lighting& lighting, double width_mm, double height_mm, double n)
    : reach_(std::hypot(width_mm, height_mm)), n_(n) {
    const Setup s = setup_of(lighting);
    middle_ = towards(s.zenith_deg * degree, s.azimuth_deg * degree);
    const double swing = lighting.tilt_deg * degree;  // about the y axis
    middle_ = {middle_.x * std::cos(swing) + middle_.z * std::sin(swing), middle_.y,
               middle_.z * std::cos(swing) - middle_.x * std::sin(swing)};
    distance_ = s.distance;
    direct_ = s.direct;
    room_ = 1 - s.direct;

    // The light's edges as directions: up is away from the board in the plane of the normal, across is level.
    const Unit across = unit(-middle_.y, middle_.x, 0);
    const Unit up{across.y * middle_.z, -across.x * middle_.z, across.x * middle_.y - across.y * middle_.x};
    const double half_across = std::tan(s.half_across_deg * degree), half_up = std::tan(s.half_up_deg * degree);
    const auto edge = [&](double a, double b) {
        return unit(middle_.x + a * across.x + b * up.x, middle_.y + a * across.y + b * up.y,
                    middle_.z + a * across.z + b * up.z);
    };
    // Radiance over a white diffuser's: π over the projected solid angle, times the share of the light that is direct.
    double solid = 0;
    constexpr int cells = 16;
    for (int i = 0; i < cells; ++i)
        for (int j = 0; j < cells; ++j) {
            const double a = half_across * (2 * (i + 0.5) / cells - 1), b = half_up * (2 * (j + 0.5) / cells - 1);
            const double r2 = 1 + a * a + b * b;
            solid += edge(a, b).z * (4 * half_across * half_up / (cells * cells)) / (r2 * std::sqrt(r2));
        }
    const bool globe = s.half_across_deg == s.half_up_deg;
    if (globe) solid *= std::numbers::pi / 4;
    radiance_ = direct_ * std::numbers::pi / solid;

    const Unit eye = to_eye(0, 0);
    const Half centre = half_vector(middle_, eye);
    const Half right = half_vector(edge(half_across, 0), eye), left = half_vector(edge(-half_across, 0), eye);
    const Half high = half_vector(edge(0, half_up), eye), low = half_vector(edge(0, -half_up), eye);
    const double x0 = std::min(left.slope_x, right.slope_x) - centre.slope_x,
                 x1 = std::max(left.slope_x, right.slope_x) - centre.slope_x;
    const double y0 = std::min(high.slope_y, low.slope_y) - centre.slope_y,
                 y1 = std::max(high.slope_y, low.slope_y) - centre.slope_y;
    if (globe) {
        // A disc as seven bands across it, each as wide as the disc is there.
        constexpr int bands = 7;
        for (int k = 0; k < bands; ++k) {
            const double from = 2.0 * k / bands - 1, to = 2.0 * (k + 1) / bands - 1, mid = 0.5 * (from + to);
            const double wide = std::sqrt(1 - mid * mid);
            panes_.push_back({wide * x0, wide * x1, 0.5 * (y0 + y1) + 0.5 * from * (y1 - y0),
                              0.5 * (y0 + y1) + 0.5 * to * (y1 - y0)});
        }
    } else {
        // Two casements of two panes: the frame's bars take 5 % of each side.
        const double bar = 0.025;
        for (const auto& [xa, xb] : {std::pair{0.0, 0.5 - bar}, std::pair{0.5 + bar, 1.0}})
            for (const auto& [ya, yb] : {std::pair{0.0, 0.5 - bar}, std::pair{0.5 + bar, 1.0}})
                panes_.push_back({x0 + xa * (x1 - x0), x0 + xb * (x1 - x0), y0 + ya * (y1 - y0), y0 + yb * (y1 - y0)});
    }
    // Extent along x inside the film: a band of half width w has the standard deviation w/√3, a disc w/2.
    spread_ = std::abs(edge(half_across, 0).x - middle_.x) / n_ / (globe ? 2 : std::sqrt(3.0));
}

Unit Room::to_light(double x, double y, double& distance) const {
    const double lx = middle_.x * distance_ - x, ly = middle_.y * distance_ - y, lz = middle_.z * distance_;
    distance = std::sqrt(lx * lx + ly * ly + lz * lz);
    return {lx / distance, ly / distance, lz / distance};
}

Unit Room::to_eye(double x, double y) const {
    return unit(-x, std::sin(eye_zenith) * eye_distance - y, std::cos(eye_zenith) * eye_distance);
}

Aspect Room::at(double x_mm, double y_mm) const {
    const double x = x_mm / reach_, y = y_mm / reach_;
    double distance = 1;
    const Unit light = to_light(x, y, distance), eye = to_eye(x, y);
    const Half h = half_vector(light, eye);
    const double nearer = distance_ / distance;
    const double cosine_facet = std::min(1.0, h.cosine);
    Aspect a;
    a.slope_x = static_cast<float>(h.slope_x);
    a.slope_y = static_cast<float>(h.slope_y);
    a.light = static_cast<float>(room_ + direct_ * nearer * nearer * light.z / middle_.z);
    a.shine =
        static_cast<float>(radiance_ * optics::fresnel(cosine_facet, 1, n_).unpolarised() * h.cosine / (eye.z * h.up));
    a.sky = static_cast<float>(room_ * optics::fresnel(std::min(1.0, eye.z), 1, n_).unpolarised());
    const Unit in = optics::refracted(light, n_), out = optics::refracted(eye, n_);
    const double to[] = {in.x, in.y, in.z, out.x, out.y, out.z};
    for (std::size_t i = 0; i < 3; ++i) {
        a.in[i] = static_cast<float>(to[i]);
        a.out[i] = static_cast<float>(to[i + 3]);
    }
    return a;
}

double Room::mirrored(double alpha, double x, double y) const {
    double sum = 0;
    for (const auto& p : panes_)
        sum += optics::facet_share(alpha, {p.x_low - x, p.x_high - x, p.y_low - y, p.y_high - y});
    return sum;
}

Glare::Glare(const Room& room, double alpha, int threads) : table_(entries * entries) {
    const auto tilt = [](std::size_t i) {
        return static_cast<double>(reach) * (2.0 * static_cast<double>(i) / (entries - 1) - 1);
    };
    grain::for_rows(entries, threads, [&](int first, int end) {
        for (auto v = static_cast<std::size_t>(first); v < static_cast<std::size_t>(end); ++v)
            for (std::size_t u = 0; u < entries; ++u)
                table_[v * entries + u] = static_cast<float>(room.mirrored(alpha, tilt(u), tilt(v)));
    });
}

}  // namespace foretone::light
