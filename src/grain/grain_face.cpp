// The face, pixel by pixel: the rings' mean over the pixel, streaks along the rings, fibres along the grain, rays,
// pores; curl and blotch in what it drinks. Radii are taken at pixel corners, so that a pixel knows how much radius it
// spans.

#include "grain_face.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "foretone/base/angle.hpp"

namespace foretone::grain {
namespace {

using base::degree;
constexpr float open_shade = 1.2f;  // shade that a radian of rise adds: a tilted fibre opens its ends to the face
constexpr int node_px = 16;         // between two of these the tangential angle is a straight line

// eˣ for |x| ≤ 2 within 4e-6 relative, without a call: the fourth power of a short series.
inline float exp_small(float x) {
    const float q = 0.25f * x;
    const float e = 1 + q * (1 + q * (0.5f + q * (1.0f / 6 + q * (1.0f / 24 + q * (1.0f / 120 + q * (1.0f / 720))))));
    const float s = e * e;
    return s * s;
}

std::size_t size(int n) { return static_cast<std::size_t>(n); }

}  // namespace

struct BoardFace::Work {
    int margin = 0, first = 0, rows = 0;  // radii: corner rows first − margin … + rows
    std::vector<float> radius, tangent;   // corners
    std::vector<float> large, small, speck;
    std::vector<float> shade, mix[2], drink, curl, contrast;
};

BoardFace::BoardFace(const material::Wood& wood, const material::Grain& grain, Cut cut, int width, int height,
                     double step, std::uint64_t seed)
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
    drift_px_.resize(size(width)), v_.resize(size(width + 1)), turn_.resize(size(width)), rise_.resize(size(width));
    for (int x = 0; x <= width; ++x) v_[size(x)] = static_cast<float>(log_.v(x * step));
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
    middle_shade_ = static_cast<float>(0.5 * grain.late_shade.value);
    rings_ = std::make_unique<Rings>(grain, tone_, low - stray, high + stray, seed + 301);
    const bool seen = grain.ray_per_mm.value > 0 && grain.ray_um.value > 0 && 1e-3 * grain.ray_um.value > 0.15 * step;
    if (seen)
        rays_ = std::make_unique<Rays>(grain, width, step, t_low - 2.5, t_high + 2.5,
                                       cut == Cut::quarter ? 0 : 0.5 * step, seed + 302);
}

// Radii at the corners of the band's pixels and of some rows around.
void BoardFace::radii(Work& w, int first, int end) const {
    w.first = first - w.margin, w.rows = end - first + 2 * w.margin + 1;
    const int wide = width_ + 1;
    w.radius.assign(size(w.rows) * size(wide), 0.0f);
    std::vector<float> drift(size(wide));
    for (int x = 0; x < wide; ++x) drift[size(x)] = static_cast<float>(log_.drift(x * step_));
    for (int n = 0; n < w.rows; ++n) {
        const double y = y_of(w.first + n);
        float* r = &w.radius[size(n) * size(wide)];
        log_.add_waver(r, wide, 0, step_, y);
        const auto base = static_cast<float>(log_.u(y));
        for (int x = 0; x < wide; ++x) {
            const float u = base - drift[size(x)], v = v_[size(x)];
            r[x] = std::max(0.01f, r[x] + std::sqrt(u * u + v * v));
        }
    }
}

// Tangential coordinate at the corners of the band's pixels.
void BoardFace::tangents(Work& w, int first, int end) const {
    const int wide = width_ + 1, rows = end - first + 1;
    w.tangent.assign(size(rows) * size(wide), 0.0f);
    for (int n = 0; n < rows; ++n) {
        const double y = y_of(first + n);
        float* t = &w.tangent[size(n) * size(wide)];
        log_.add_ray_waver(t, wide, 0, step_, y);
        const auto angle = [&](int x) {
            const double v = x <= width_ ? static_cast<double>(v_[size(x)]) : log_.v(x * step_);
            return static_cast<float>(log_.reference_mm() * std::atan2(log_.u(y - log_.drift(x * step_)), v));
        };
        float a = angle(0);
        for (int x0 = 0; x0 < wide; x0 += node_px) {
            const float b = angle(x0 + node_px), slope = (b - a) / node_px;
            for (int x = x0; x < std::min(wide, x0 + node_px); ++x) t[x] += a + slope * static_cast<float>(x - x0);
            a = b;
        }
    }
}

void BoardFace::grooves(Work& w, int first, int end) const {
    const std::size_t count = size(end - first) * size(width_);
    w.large.assign(count, 0.0f), w.small.assign(count, 0.0f), w.speck.assign(count, 0.0f);
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
        const Grooves small{face_density(grain_.small_pore_per_mm2.value, grain_.small_pore_um.value, mm), mm,
                            1e-3 * grain_.small_pore_um.value, seed_ + 402};
        add_grooves(
            band, small, log_, [&](double x, double y) { return std::pair(near(x, y).small, 1.0f); }, w.small.data());
    }
    if (grain_.speck_per_dm2.value > 0) {
        const Grooves speck{grain_.speck_per_dm2.value * 1e-4, grain_.speck_mm.value,
                            0.17 * std::sqrt(grain_.speck_mm.value), seed_ + 403};
        add_grooves(
            band, speck, log_, [](double, double) { return std::pair(1.0f, 1.0f); }, w.speck.data());
    }
}

// What varies along the grain, drawn as noise over the row: streaks, drift, drinking, curl.
void BoardFace::layers(Work& w, double y) const {
    const auto q = [&](double x) { return y - log_.drift(x); };
    const auto add = [&](const Noise& noise, std::vector<float>& out, double amplitude, double tall, double shift = 0) {
        if (amplitude > 0) noise.add_row(out.data(), width_, 0.5, step_, amplitude, tall, q, shift);
    };
    for (auto* v : {&w.shade, &w.mix[0], &w.mix[1], &w.drink, &w.curl, &w.contrast}) v->assign(size(width_), 0.0f);
    constexpr double fibre_share[] = {0.55, 0.60, 0.47, 0.34, 0.6};
    const std::size_t fibres = step_ < 0.08 ? 5 : 4;  // the finest, single fibres, averages out in larger pixels
    for (std::size_t n = 0; n < fibres; ++n) add(fibre_[n], w.shade, grain_.fibre_shade.value * fibre_share[n], step_);
    constexpr double two_share[] = {0.85, 0.53};  // coarse and fine
    for (std::size_t n = 0; n < 2; ++n) {
        add(drift_[n], w.shade, two_share[n] * grain_.drift_shade.value, 0);
        add(mix_[n], w.mix[n], grain_.streak_shade.value, 0);
    }
    blotches_.add_row(w.drink.data(), width_, step_, q);
    add(contrast_, w.contrast, 0.22, 0);
    const double curl = grain_.curl_deg.value * degree, shift = 0.3 * grain_.curl_mm.value * curl_shift_(y);
    add(curl_[0], w.curl, 0.8 * curl, step_, shift);
    add(curl_[1], w.curl, 0.6 * curl, step_, shift);
}

void BoardFace::row(Work& w, Maps& maps, int y) const {
    const int wide = width_ + 1;
    layers(w, y_of(y + 0.5));
    const float* r0 = &w.radius[size(y - w.first) * size(wide)];
    const float* r1 = r0 + wide;
    const std::size_t local_row = size(y - w.first - w.margin);
    const float* t0 = has_rays() ? &w.tangent[local_row * size(wide)] : nullptr;
    const float* t1 = t0 ? t0 + wide : nullptr;
    const std::size_t start = local_row * size(width_);
    const auto twist = static_cast<float>(grain_.ribbon_deg.value * degree);
    const auto end_uptake = static_cast<float>(grain_.end_uptake.value - 1);
    const auto pore_shade = static_cast<float>(grain_.pore_shade.value),
               pore_uptake = static_cast<float>(grain_.pore_uptake.value);
    const auto ray_shade = static_cast<float>(grain_.ray_shade.value),
               ray_end = static_cast<float>(grain_.ray_end_shade.value);
    const auto u_middle = static_cast<float>(log_.u(y_of(y + 0.5)));
    for (int x = 0; x < width_; ++x) {
        const std::size_t i = size(x), at = maps.at(x, y);
        const float dx = 0.5f * (r0[x + 1] - r0[x] + r1[x + 1] - r1[x]),
                    dy = 0.5f * (r1[x] - r0[x] + r1[x + 1] - r0[x + 1]);
        const float r = 0.25f * (r0[x] + r0[x + 1] + r1[x] + r1[x + 1]);
        const auto ring = rings_->mean(r, std::sqrt(dx * dx + dy * dy));
        const auto& local = rings_->local(r);
        const float inwards = (u_middle - drift_px_[i]) / r, outwards = v_[i] / r;
        const float ringed = tone_.shade(ring.bright);
        float shade = ringed + w.contrast[i] * (ringed - middle_shade_) + w.shade[i] + w.mix[0][i] * local.streak[0] +
                      w.mix[1][i] * local.streak[1];
        float rise = rise_[i] + w.curl[i] + twist * local.twist * inwards;
        const float tilt = rise * rise / (std::abs(rise) + 0.03f);  // |rise| without its edge at 0
        shade += open_shade * tilt;
        float turn = turn_[i] - twist * local.twist * outwards;
        float uptake = ring.uptake * exp_small(w.drink[i]) * (1 + end_uptake * tilt);
        float vessels = 1;  // a ray lying in the face has none
        if (has_rays()) {
            const float tx = 0.5f * (t0[x + 1] - t0[x] + t1[x + 1] - t1[x]),
                        ty = 0.5f * (t1[x] - t0[x] + t1[x + 1] - t0[x + 1]);
            const float c =
                rays_->cover(x, 0.25f * (t0[x] + t0[x + 1] + t1[x] + t1[x + 1]), std::sqrt(tx * tx + ty * ty));
            const float lying = inwards * inwards;
            shade += c * (lying * ray_shade + (1 - lying) * ray_end);
            const float level = lying * lying * lying * lying;  // 1 along the rays, a tenth at 40° to them
            turn += c * level * static_cast<float>(std::numbers::pi / 2);
            uptake *= 1 + c * (1 - lying) * 0.6f;
            vessels = 1 - c * lying;
        }
        const float large = std::min(1.0f, w.large[start + i]), small = std::min(1.0f, w.small[start + i]);
        const float open = vessels * (1 - (1 - large) * (1 - 0.75f * small));
        if (open > 0) {
            const float bright = tone_.bright(shade);
            shade = tone_.shade(bright + open * (tone_.bright(shade + pore_shade) - bright));
            uptake *= 1 + open * (pore_uptake - 1);
        }
        shade += 0.9f * std::min(1.0f, w.speck[start + i]);
        maps.shade[at] = shade, maps.uptake[at] = uptake, maps.rise[at] = rise, maps.turn[at] = turn;
        maps.pore[at] = open;
    }
}

void BoardFace::paint(Maps& maps, int first, int end) const {
    Work w;
    const double slope = 3 * std::tan(grain_.slope_deg.value * degree) + 0.01;
    w.margin = std::max(groove_margin({1, grain_.pore_mm.value, 1e-3 * grain_.pore_um.value, 0}, slope, step_), 1);
    radii(w, first, end);
    if (has_rays()) tangents(w, first, end);
    grooves(w, first, end);
    for (int y = first; y < end; ++y) row(w, maps, y);
}

}  // namespace foretone::grain
