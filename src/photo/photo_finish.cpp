// The finish on every spot of a photographed board, as tables; photo_paint.cpp puts it on the pixels.
//
// Symbols: Y a pixel's luminance, s the shade of bare wood that has it, u its uptake (photo_figure.hpp) · B(s) bare and
// F(s, u) finished color of the wood, per channel · b, f their slopes d ln/ds, f at the mean uptake · o the board's own
// color as a difference in shade · h light from the surface, above what the wood can be · k shadow, below it.
//   bare      P = k B(s) exp(b o) + h W
//   finished  Q = k F(s, u) exp(f o) + h W
//   a pixel   c  →  Q (c/P)^(f/b), of the part of it that is wood
// What differs in the pixel's color differs in the wood, and the finish deepens it as it deepens the wood itself. P and
// f/b depend on Y alone and are tabulated over √Y; Q over √Y and ln u. c/P is kept near 1, so that no pixel becomes
// what the wood cannot be. Y itself needs no ratio: P has the pixel's own.

#include <algorithm>
#include <cmath>
#include <glm/vec3.hpp>
#include <stdexcept>

#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/photo/photo.hpp"
#include "photo_curve.hpp"
#include "photo_figure.hpp"

namespace foretone::photo {
namespace {

double between(const std::vector<std::array<double, 3>>& v, double place, std::size_t c) {
    const auto i = std::min(static_cast<std::size_t>(std::max(place, 0.0)), v.size() - 2);
    return v[i][c] + (place - double(i)) * (v[i + 1][c] - v[i][c]);
}

double luminance_of(std::size_t entry, std::size_t entries) {
    const double q = double(entry) / double(entries - 1);
    return std::max(q * q * double(curve_top), 1e-7);
}

}  // namespace

std::vector<std::array<double, 3>> log_slopes(const std::vector<std::array<double, 3>>& tones, double step) {
    std::vector<std::array<double, 3>> out(tones.size());
    for (std::size_t i = 0; i < tones.size(); ++i) {
        const std::size_t low = i == 0 ? 0 : i - 1, high = std::min(i + 1, tones.size() - 1);
        for (std::size_t c = 0; c < 3; ++c)
            out[i][c] = std::log(tones[high][c] / tones[low][c]) / (double(high - low) * step);
    }
    return out;
}

// B falls with s: bisection over the sampled tones, straight between two.
PhotoBoard::Spot PhotoBoard::spot(double luminance, double palest) const {
    const double place = std::max(0.0, (palest - first_shade_) / shade_step_);
    const auto first = std::min(static_cast<std::size_t>(place), tones_.size() - 2);
    const double share = place - double(first);
    const double brightest = tones_[first][1] + share * (tones_[first + 1][1] - tones_[first][1]);
    if (luminance >= brightest) return {palest, luminance - brightest, 1};
    if (luminance <= tones_.back()[1]) {
        return {first_shade_ + shade_step_ * double(tones_.size() - 1), 0, std::max(0.0, luminance) / tones_.back()[1]};
    }
    std::size_t low = first, high = tones_.size() - 1;
    while (high - low > 1) {
        const std::size_t mid = (low + high) / 2;
        (tones_[mid][1] >= luminance ? low : high) = mid;
    }
    const double f = (tones_[low][1] - luminance) / (tones_[low][1] - tones_[high][1]);
    return {first_shade_ + shade_step_ * (double(low) + f), 0, 1};
}

double PhotoBoard::bare_color(const Spot& at, std::size_t c) const {
    const double place = (at.shade - first_shade_) / shade_step_;
    return at.shadow * between(tones_, place, c) * std::exp(between(slopes_, place, c) * offset_[c]) +
           at.surface * double(d65_white[c]);
}

// Cones of a bare spot under the second lamp over those under the first.
std::array<float, 3> PhotoBoard::second_over_first(const Spot& at) const {
    const double place = (at.shade - first_shade_) / shade_step_;
    std::array<double, 3> one{}, two{};
    for (std::size_t c = 0; c < 3; ++c) {
        one[c] = bare_color(at, c);
        two[c] = at.shadow * between(second_tones_, place, c) * std::exp(between(slopes_, place, c) * offset_[c]) +
                 at.surface * second_white_[c];
    }
    std::array<float, 3> out{};
    for (std::size_t k = 0; k < 3; ++k) {
        double a = 0, b = 0;
        for (std::size_t c = 0; c < 3; ++c)
            a += double(to_cones_[k][c]) * one[c], b += double(to_cones_[k][c]) * two[c];
        out[k] = static_cast<float>(b / a);
    }
    return out;
}

PhotoBoard::Curve PhotoBoard::curve() const {
    Curve out(curve_entries);
    for (std::size_t i = 0; i < curve_entries; ++i) {
        const double luminance = luminance_of(i, curve_entries);
        const Spot at = spot(luminance);
        std::array<double, 3> p{};
        for (std::size_t c = 0; c < 3; ++c) p[c] = bare_color(at, c);
        out[i] = {static_cast<float>(p[0]),
                  static_cast<float>(p[2]),
                  1,
                  1,
                  static_cast<float>(at.shade),
                  at.surface > 0.02 * luminance ? 1.0F : 0.0F};
    }
    return out;
}

PhotoBoard::Finish PhotoBoard::finish_of(const appearance::ToneTable& finished,
                                         const appearance::ToneTable* second) const {
    for (const auto* table : {&finished, second}) {
        if (table && (table->range().shade_low > first_shade_ + 1e-9 ||
                      table->range().shade_high < first_shade_ + shade_step_ * double(tones_.size() - 1) - 1e-9))
            throw std::invalid_argument("photo::PhotoBoard: the finished table spans less than the bare one");
    }
    if (second_tones_.empty() || field_.even()) second = nullptr;
    const auto adapt = color::adaptation_matrix(color::Cat::cat16, finished.white(), color::srgb_white);
    const auto color_in = [&](const appearance::ToneTable& table, double s, double u) {
        const auto c = table.reading(s, std::min(u, table.range().uptake_high));
        const glm::dvec3 seen = adapt * glm::dvec3(c.x, c.y, c.z) / 100.0;
        return std::array<double, 3>{seen.x, seen.y, seen.z};
    };
    const auto color_at = [&](double s, double u) { return color_in(finished, s, u); };
    // Slopes along shade alone: a pixel that is redder than its wood takes up no more for it.
    std::vector<std::array<double, 3>> usual;
    for (std::size_t i = 0; i < tones_.size(); ++i)
        usual.push_back(color_at(first_shade_ + double(i) * shade_step_, 1));
    const auto slopes = log_slopes(usual, shade_step_);
    Finish out{own_, std::vector<std::array<float, 4>>(curve_entries * uptake_entries), {}, {}};
    if (second) out.second_tones.resize(out.tones.size()), out.second_bare.resize(curve_entries);
    for (std::size_t i = 0; i < curve_entries; ++i) {
        const double luminance = luminance_of(i, curve_entries);
        const Spot at = spot(luminance);
        const double place = (at.shade - first_shade_) / shade_step_;
        std::array<double, 3> g{}, times{}, white{};
        for (std::size_t c = 0; c < 3; ++c) {
            const double b = between(slopes_, place, c), f = between(slopes, place, c);
            white[c] = at.surface * double(d65_white[c]);
            // Surface light has no finish below it: what differs there stays as it is.
            g[c] = 1 + (1 - white[c] / bare_color(at, c)) * (std::clamp(f / b, 0.0, 4.0) - 1);
            times[c] = at.shadow * std::exp(f * offset_[c]);
        }
        out.curve[i].gx = static_cast<float>(g[0]);
        out.curve[i].gz = static_cast<float>(g[2]);
        for (std::size_t j = 0; j < uptake_entries; ++j) {
            const double uptake = std::exp(double(ln_uptake_low) + double(j) * double(ln_uptake_step));
            const auto c = color_at(at.shade, uptake);
            for (std::size_t k = 0; k < 3; ++k)
                out.tones[i * uptake_entries + j][k] = static_cast<float>(times[k] * c[k] + white[k]);
            if (!second) continue;
            const auto d = color_in(*second, at.shade, uptake);
            for (std::size_t k = 0; k < 3; ++k)
                out.second_tones[i * uptake_entries + j][k] =
                    static_cast<float>(times[k] * d[k] + at.surface * second_white_[k]);
        }
        if (!second) continue;
        const auto b = second_over_first(at);
        out.second_bare[i] = {b[0], b[1], b[2], 1};
    }
    return out;
}

FinishedPhoto PhotoBoard::before() const { return paint(nullptr); }

FinishedPhoto PhotoBoard::finished(const appearance::ToneTable& table, const appearance::ToneTable* second_lamp) const {
    const Finish finish = finish_of(table, second_lamp);
    return paint(&finish);
}

}  // namespace foretone::photo
