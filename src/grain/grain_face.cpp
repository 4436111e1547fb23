// The face, pixel by pixel: the rings' mean over the pixel, streaks along the rings, fibres along the grain, rays,
// pores; curl and blotch in what it drinks. Radii are taken at pixel corners, so that a pixel knows how much radius it
// spans.

#include "grain_face.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/angle.hpp"
#include "grain_nodes.hpp"

namespace foretone::grain {
namespace {

using base::degree;
constexpr float open_shade = 1.2f;  // shade that a radian of rise adds: a tilted fibre opens its ends to the face
constexpr double node_mm = 5;       // between two places so far apart the tangential angle is a straight line

std::size_t size(int n) { return static_cast<std::size_t>(n); }

}  // namespace

struct BoardFace::Work {
    Work(const BoardFace& face)
        : slow_waver(Log::slow_waver_mm, face.step_),
          quick_waver(Log::quick_waver_mm, face.step_),
          rays(Log::ray_waver_mm, face.step_),
          streaks(17, face.step_),
          contrasts(19, face.step_),
          drinks(face.blotches_.cell_mm(), face.step_),
          curls(9, face.step_),
          slow_fibres(face.fibre_[3].cell_y(), face.step_) {}

    NodeRows slow_waver, quick_waver, rays, streaks, contrasts, drinks, curls, slow_fibres;
    NodeRows mixes[2] = {streaks, streaks};
    int margin = 0, first = 0, rows = 0;  // radii: corner rows first − margin … + rows
    std::vector<float> radius, tangent[2];
    std::vector<float> large, small, speck;
    std::vector<float> shade, mix[2], drink, curl, contrast, nothing;
};

BoardFace::BoardFace(const material::Wood& wood, const material::Grain& grain, Cut cut, int width, int height,
                     double step, std::uint64_t seed, int threads)
    : grain_(grain),
      width_(width),
      step_(step),
      centre_(0.5 * height * step),
      seed_(seed),
      tone_(wood),
      log_(grain, cut, width * step, height * step, seed),
      fibre_{{seed + 201, 5.3, 0.11},
             {seed + 202, 13, 0.31},
             {seed + 203, 37, 0.93},
             {seed + 204, 90, 2.9},
             {seed + 205, 1.9, 0.037}},
      mix_{{seed + 211, 160, 60}, {seed + 212, 160, 60}},
      contrast_(seed + 213, 75, 19),
      drift_{{seed + 221, 290, 55}, {seed + 222, 150, 17}},
      blotches_(grain, seed + 231),
      curl_{{seed + 241, 0.27 * grain.curl_mm.value, 24}, {seed + 242, 0.4 * grain.curl_mm.value, 9}},
      curl_shift_(seed + 243, 19) {
    drift_px_.resize(size(width)), turn_.resize(size(width)), rise_.resize(size(width));
    v_.resize(size(width + 1)), corner_drift_.resize(size(width + 1));
    for (int x = 0; x <= width; ++x) {
        v_[size(x)] = static_cast<float>(log_.v(x * step));
        corner_drift_[size(x)] = static_cast<float>(log_.drift(x * step));
    }
    for (int x = 0; x < width; ++x) {
        drift_px_[size(x)] = static_cast<float>(log_.drift((x + 0.5) * step));
        turn_[size(x)] = static_cast<float>(log_.turn((x + 0.5) * step));
        rise_[size(x)] = static_cast<float>(log_.rise((x + 0.5) * step));
    }
    // Bounds of the radius and of the tangential coordinate over the board.
    double low = 1e9, high = 0, t_low = 1e9, t_high = -1e9;
    for (int i = 0; i <= 64; ++i) {
        const double x = i / 64.0 * width * step, v = log_.v(x);
        for (int j = 0; j <= 64; ++j) {
            const double u = log_.u((j / 32.0 - 1) * centre_ - log_.drift(x)), r = std::hypot(u, v);
            low = std::min(low, r), high = std::max(high, r);
            const double a = log_.reference_mm() * std::atan2(u, v);
            t_low = std::min(t_low, a), t_high = std::max(t_high, a);
        }
    }
    const double stray = 5 * grain.ring_waver_mm.value + 2;
    rings_ = std::make_unique<Rings>(grain, tone_, low - stray, high + stray, seed + 301);
    const bool seen = grain.ray_per_mm.value > 0 && grain.ray_um.value > 0 && 1e-3 * grain.ray_um.value > 0.15 * step;
    if (seen)
        rays_ = std::make_unique<Rays>(grain, width, step, t_low - 2.5, t_high + 2.5,
                                       cut == Cut::quarter ? 0 : 0.5 * step, seed + 302, threads);
    lend();
}

void BoardFace::lend() {
    tone_.lend(tables_);
    rings_->lend(tables_);
    if (rays_) rays_->lend(tables_);
    const auto value = [](const material::Figure& f) { return static_cast<float>(f.value); };
    tables_.twist = static_cast<float>(grain_.ribbon_deg.value * degree);
    tables_.middle_shade = 0.5f * value(grain_.late_shade), tables_.open_shade = open_shade;
    tables_.end_uptake = value(grain_.end_uptake) - 1;
    tables_.ray_shade = value(grain_.ray_shade), tables_.ray_end_shade = value(grain_.ray_end_shade);
    tables_.pore_shade = value(grain_.pore_shade), tables_.pore_uptake = value(grain_.pore_uptake);
}

// Radii at the corners of the band's pixels and of some rows around.
void BoardFace::radii(Work& w, int first, int end) const {
    w.first = first - w.margin, w.rows = end - first + 2 * w.margin + 1;
    const int wide = width_ + 1;
    w.radius.assign(size(w.rows) * size(wide), 0.0f);
    for (int n = 0; n < w.rows; ++n) {
        float* r = &w.radius[size(n) * size(wide)];
        for (const bool slow : {true, false})
            (slow ? w.slow_waver : w.quick_waver).add(isa_, r, wide, w.first + n, [&](int row, float* out) {
                log_.add_waver(out, wide, 0, step_, y_of(row), slow);
            });
        log_.add_fringe(r, wide, 0, step_, y_of(w.first + n));
        add_distance(isa_, r, corner_drift_.data(), v_.data(), static_cast<float>(log_.u(y_of(w.first + n))), wide);
    }
}

// Tangential coordinate along a row of corners.
void BoardFace::tangent_row(float* t, double y) const {
    const int wide = width_ + 1, node = std::clamp(static_cast<int>(node_mm / step_), 1, 64);
    log_.add_ray_waver(t, wide, 0, step_, y);
    const auto angle = [&](int x) {
        const double v = x <= width_ ? static_cast<double>(v_[size(x)]) : log_.v(x * step_);
        return static_cast<float>(log_.reference_mm() * std::atan2(log_.u(y - log_.drift(x * step_)), v));
    };
    float a = angle(0);
    for (int x0 = 0; x0 < wide; x0 += node) {
        const float b = angle(x0 + node), slope = (b - a) / static_cast<float>(node);
        for (int x = x0; x < std::min(wide, x0 + node); ++x) t[x] += a + slope * static_cast<float>(x - x0);
        a = b;
    }
}

void BoardFace::grooves(Work& w, int first, int end) const {
    const std::size_t count = size(end - first) * size(width_) + groove_pad;
    const Band band{first, end, width_, step_, centre_};
    // The rings at a point between four corners.
    const auto near = [&](double x, double y) -> const Rings::Local& {
        const double u = std::clamp(y - w.first, 0.0, w.rows - 1.001);
        const int column = std::min(static_cast<int>(x), width_ - 1), row = static_cast<int>(u);
        const float* r = &w.radius[size(row) * size(width_ + 1) + size(column)];
        const auto tx = static_cast<float>(x - column), ty = static_cast<float>(u - row);
        const float upper = r[0] + tx * (r[1] - r[0]), lower = r[width_ + 1] + tx * (r[width_ + 2] - r[width_ + 1]);
        return rings_->local(upper + ty * (lower - upper));
    };
    const auto face_density = [](double per_mm2, double um, double mm) { return per_mm2 * 1e-3 * um / mm; };
    if (grain_.pores != material::Pores::none) {
        w.large.assign(count, 0.0f);
        const Grooves large{face_density(grain_.pore_per_mm2.value, grain_.pore_um.value, grain_.pore_mm.value),
                            grain_.pore_mm.value, 1e-3 * grain_.pore_um.value, seed_ + 401};
        add_grooves(
            band, large, log_,
            [&](double x, double y) {
                const auto& l = near(x, y);
                return std::pair(l.large, l.size);
            },
            w.large.data());
    }
    if (grain_.pores == material::Pores::ring || grain_.pores == material::Pores::semi_ring) {
        const double mm =
            std::max(0.3, 0.6 * grain_.pore_mm.value * grain_.small_pore_um.value / grain_.pore_um.value + 0.5);
        w.small.assign(count, 0.0f);
        const Grooves small{face_density(grain_.small_pore_per_mm2.value, grain_.small_pore_um.value, mm), mm,
                            1e-3 * grain_.small_pore_um.value, seed_ + 402};
        add_grooves(
            band, small, log_, [&](double x, double y) { return std::pair(near(x, y).small, 1.0f); }, w.small.data());
    }
    if (grain_.speck_per_dm2.value > 0) {
        w.speck.assign(count, 0.0f);
        const Grooves speck{grain_.speck_per_dm2.value * 1e-4, grain_.speck_mm.value,
                            0.17 * std::sqrt(grain_.speck_mm.value), seed_ + 403};
        add_grooves(
            band, speck, log_, [](double, double) { return std::pair(1.0f, 1.0f); }, w.speck.data());
    }
}

// What varies along the grain, drawn as noise over the row: streaks, drift, drinking, curl.
void BoardFace::layers(Work& w, int y) const {
    const auto add = [&](const Noise& noise, float* out, int row, double amplitude, double tall, double shift = 0) {
        const double at = y_of(row + 0.5);
        if (amplitude > 0)
            noise.add_row(
                out, width_, 0.5, step_, amplitude, tall, [&](double x) { return at - log_.drift(x); }, shift);
    };
    const auto slow = [&](NodeRows& nodes, std::vector<float>& out, bool any, const auto& draw) {
        if (any) nodes.add(isa_, out.data(), width_, y, draw);
    };
    for (auto* v : {&w.shade, &w.mix[0], &w.mix[1], &w.drink, &w.curl, &w.contrast}) v->assign(size(width_), 0.0f);
    constexpr double fibre_share[] = {0.55, 0.60, 0.47, 0.34, 0.6};
    const double fibre = grain_.fibre_shade.value;
    for (const std::size_t n : {0, 1, 2}) add(fibre_[n], w.shade.data(), y, fibre * fibre_share[n], step_);
    if (step_ < 0.08)  // the finest, single fibres, averages out in larger pixels
        add(fibre_[4], w.shade.data(), y, fibre * fibre_share[4], step_);
    slow(w.slow_fibres, w.shade, fibre > 0,
         [&](int row, float* out) { add(fibre_[3], out, row, fibre * fibre_share[3], step_); });
    slow(w.streaks, w.shade, grain_.drift_shade.value > 0, [&](int row, float* out) {
        add(drift_[0], out, row, 0.85 * grain_.drift_shade.value, 0);
        add(drift_[1], out, row, 0.53 * grain_.drift_shade.value, 0);
    });
    for (const std::size_t n : {0, 1})
        slow(w.mixes[n], w.mix[n], grain_.streak_shade.value > 0,
             [&](int row, float* out) { add(mix_[n], out, row, grain_.streak_shade.value, 0); });
    slow(w.drinks, w.drink, blotches_.any(), [&](int row, float* out) {
        const double at = y_of(row + 0.5);
        blotches_.add_row(out, width_, step_, [&](double x) { return at - log_.drift(x); });
    });
    slow(w.contrasts, w.contrast, true, [&](int row, float* out) { add(contrast_, out, row, 0.22, 0); });
    const double curl = grain_.curl_deg.value * degree;
    slow(w.curls, w.curl, curl > 0, [&](int row, float* out) {
        const double shift = 0.3 * grain_.curl_mm.value * curl_shift_(y_of(row + 0.5));
        add(curl_[0], out, row, 0.8 * curl, step_, shift);
        add(curl_[1], out, row, 0.6 * curl, step_, shift);
    });
}

void BoardFace::row(Work& w, Maps& maps, int origin, int y) const {
    const int wide = width_ + 1;
    layers(w, y);
    const auto tangents = [&](int row) {
        w.tangent[1].assign(size(wide), 0.0f);
        w.rays.add(isa_, w.tangent[1].data(), wide, row, [&](int node, float* out) { tangent_row(out, y_of(node)); });
        log_.add_ray_edges(w.tangent[1].data(), wide, 0, step_, y_of(row), 1e-3 * grain_.ray_um.value);
    };
    if (has_rays()) {
        if (w.tangent[0].empty()) tangents(y);
        std::swap(w.tangent[0], w.tangent[1]);
        tangents(y + 1);
    }
    const std::size_t start = size(y - w.first - w.margin) * size(width_), at = maps.at(0, y - origin);
    PixelRow p;
    p.radius = &w.radius[size(y - w.first) * size(wide)], p.radius_below = p.radius + wide;
    if (has_rays()) p.tangent = w.tangent[0].data(), p.tangent_below = w.tangent[1].data();
    p.drift = drift_px_.data(), p.v = v_.data(), p.rise = rise_.data(), p.turn = turn_.data();
    p.fibres = w.shade.data(), p.contrast = w.contrast.data(), p.drink = w.drink.data(), p.curl = w.curl.data();
    p.mix0 = w.mix[0].data(), p.mix1 = w.mix[1].data();
    if (!w.large.empty()) p.large = &w.large[start], p.small = w.small.empty() ? w.nothing.data() : &w.small[start];
    if (!w.speck.empty()) p.speck = &w.speck[start];
    p.u_middle = static_cast<float>(log_.u(y_of(y + 0.5)));
    draw_pixels(isa_, tables_, p, {&maps.shade[at], &maps.uptake[at], &maps.rise[at], &maps.turn[at], &maps.pore[at]},
                width_);
}

void BoardFace::paint(Maps& maps, int origin, int first, int end) const {
    Work w(*this);
    const double slope = 3 * std::tan(grain_.slope_deg.value * degree) + 0.01;
    w.margin = std::max(groove_margin({1, grain_.pore_mm.value, 1e-3 * grain_.pore_um.value, 0}, slope, step_), 1);
    w.nothing.assign(size(width_), 0.0f);
    radii(w, first, end);
    grooves(w, first, end);
    for (int y = first; y < end; ++y) row(w, maps, origin, y);
}

}  // namespace foretone::grain
