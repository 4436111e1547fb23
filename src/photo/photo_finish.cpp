// The finish on every pixel of a photographed board.
//
// Symbols: Y a pixel's luminance, s the shade of bare wood that has it · B(s) bare and F(s) finished color of the wood,
// per channel, F at the absorbency of that shade · b, f their slopes d ln/ds · o the board's own color as a difference
// in shade · h light from the surface, above what the wood can be · k shadow, below it.
//   bare      P = k B(s) exp(b o) + h W
//   finished  Q = k F(s) exp(f o) + h W
//   a pixel   c  →  Q (c/P)^(f/b), of the part of it that is wood
// What differs in the pixel's color differs in the wood, and the finish deepens it as it deepens the wood itself.
// Everything but c depends on Y alone and is tabulated over √Y; c/P is kept near 1, so that no pixel becomes what the
// wood cannot be. Y itself needs no ratio: P has the pixel's own.

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "foretone/base/parallel.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/photo/photo.hpp"
#include "foretone/light/screen.hpp"
#include "photo_curve.hpp"

namespace foretone::photo {

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
PhotoBoard::Spot PhotoBoard::spot(double luminance) const {
    const double place = std::max(0.0, (palest_ - first_shade_) / shade_step_);
    const auto first = std::min(static_cast<std::size_t>(place), tones_.size() - 2);
    const double share = place - double(first);
    const double brightest = tones_[first][1] + share * (tones_[first + 1][1] - tones_[first][1]);
    if (luminance >= brightest) return {palest_, luminance - brightest, 1};
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

PhotoBoard::Curve PhotoBoard::curve(const appearance::ToneTable* finished) const {
    std::vector<std::array<double, 3>> tones, slopes;
    if (finished != nullptr) {
        if (finished->range().shade_low > first_shade_ + 1e-9 ||
            finished->range().shade_high < first_shade_ + shade_step_ * double(tones_.size() - 1) - 1e-9)
            throw std::invalid_argument("photo::PhotoBoard: the finished table spans less than the bare one");
        const auto color_at = [&](double s, double u) {
            const auto c = color::adapt(finished->reading(s, std::min(u, finished->range().uptake_high)),
                                        finished->white(), color::srgb_white);
            return std::array<double, 3>{c.x / 100, c.y / 100, c.z / 100};
        };
        // Slopes along shade alone: a pixel that is redder than its wood takes up no more for it.
        for (std::size_t i = 0; i < tones_.size(); ++i) {
            const double s = first_shade_ + double(i) * shade_step_, u = uptake_scale_ * uptakes_[i];
            const double half = 0.5 * shade_step_ * (i == 0 || i + 1 == tones_.size() ? 0.0 : 1.0);
            tones.push_back(color_at(s, u));
            const double from = i == 0 ? s : s - half - 0.5 * shade_step_,
                         to = i + 1 == tones_.size() ? s : s + half + 0.5 * shade_step_;
            const auto low = color_at(from, u), high = color_at(to, u);
            std::array<double, 3> slope{};
            for (std::size_t c = 0; c < 3; ++c) slope[c] = std::log(high[c] / low[c]) / (to - from);
            slopes.push_back(slope);
        }
    }
    const auto between = [](const std::vector<std::array<double, 3>>& v, double place, std::size_t c) {
        const auto i = std::min(static_cast<std::size_t>(std::max(place, 0.0)), v.size() - 2);
        return v[i][c] + (place - double(i)) * (v[i + 1][c] - v[i][c]);
    };
    Curve out(curve_entries);
    for (std::size_t i = 0; i < curve_entries; ++i) {
        const double q = double(i) / double(curve_entries - 1), luminance = std::max(q * q * double(curve_top), 1e-7);
        const Spot at = spot(luminance);
        const double place = (at.shade - first_shade_) / shade_step_;
        std::array<double, 3> p{}, g{1, 1, 1};
        auto& e = out[i];
        for (std::size_t c = 0; c < 3; ++c) {
            const double b = between(slopes_, place, c), white = at.surface * double(d65_white[c]);
            p[c] = at.shadow * between(tones_, place, c) * std::exp(b * offset_[c]) + white;
            e.q[c] = static_cast<float>(p[c]);
            if (finished == nullptr) continue;
            const double f = between(slopes, place, c);
            const double wood =
                1 - white / p[c];  // surface light has no finish below it: what differs there stays as it is
            g[c] = 1 + wood * (std::clamp(f / b, 0.0, 4.0) - 1);
            e.q[c] = static_cast<float>(at.shadow * between(tones, place, c) * std::exp(f * offset_[c]) + white);
        }
        e.px = static_cast<float>(p[0]);
        e.pz = static_cast<float>(p[2]);
        e.gx = static_cast<float>(g[0]);
        e.gz = static_cast<float>(g[2]);
        e.above = at.surface > 0.02 * luminance ? 1.0F : 0.0F;
    }
    return out;
}

FinishedPhoto PhotoBoard::before() const { return paint(curve(nullptr), false); }

FinishedPhoto PhotoBoard::finished(const appearance::ToneTable& table) const { return paint(curve(&table), true); }

FinishedPhoto PhotoBoard::paint(const Curve& curve, bool finish) const {
    const light::Screen screen(color::srgb_white);
    const int width = pixels_.width, height = pixels_.height;
    FinishedPhoto out;
    out.image.width = width;
    out.image.height = height;
    out.image.rgb.resize(pixels_.rgb.size());
    struct RowSum {
        std::array<double, 3> color{};
        double pixels = 0, weight = 0, out = 0;
    };
    std::vector<RowSum> sums(
        static_cast<std::size_t>(height));  // added in order of rows: the same for any number of threads
    base::parallel_rows(height, threads_, [&](int first, int end) {
        MaskRow row;
        for (int y = first; y < end; ++y) {
            const std::uint16_t* v = &pixels_.rgb[3 * std::size_t(y) * std::size_t(width)];
            std::uint8_t* to = &out.image.rgb[3 * std::size_t(y) * std::size_t(width)];
            RowSum sum;
            mask_row(y, row);
            for (int x = 0; x < width; ++x, v += 3, to += 3) {
                auto c = color_of(v);
                const WoodShare part = this->share_of_wood(row, x, y, c);
                const float w = part.wood;
                bool plain = false;
                if (w > 0) {
                    std::array<float, 3> rest{}, own{};  // c = rest + w own
                    for (std::size_t k = 0; k < 3; ++k) {
                        rest[k] = std::min((1 - w) * part.rest[k], std::max(c[k], 0.0F));
                        own[k] = (c[k] - rest[k]) / w;
                    }
                    const Entry e = entry_at(curve, own[1]);
                    plain = w >= whole && part.rest == c && e.above < 0.5F;  // at the edge the file's colors are mixed
                    if (finish) {
                        const float rx = std::clamp(own[0] / std::max(e.px, 1e-9F), 1 / x_limit, x_limit);
                        const float rz = std::clamp(own[2] / std::max(e.pz, 1e-9F), 1 / z_limit, z_limit);
                        c = {rest[0] + w * e.q[0] * power(rx, e.gx), rest[1] + w * e.q[1],
                             rest[2] + w * e.q[2] * power(rz, e.gz)};
                    }
                }
                light::Tally tally;
                const light::Code code = screen.code(100 * c[0], 100 * c[1], 100 * c[2], tally);
                std::copy(code.begin(), code.end(), to);
                if (!(w > 0)) continue;
                for (std::size_t k = 0; k < 3 && plain; ++k) sum.color[k] += double(c[k]);
                sum.pixels += plain ? 1 : 0;
                sum.weight += double(w);
                sum.out += double(w) * double(tally.reduced);
            }
            sums[std::size_t(y)] = sum;
        }
    });
    RowSum all;
    for (const auto& s : sums) {
        for (std::size_t k = 0; k < 3; ++k) all.color[k] += s.color[k];
        all.pixels += s.pixels;
        all.weight += s.weight;
        all.out += s.out;
    }
    if (all.pixels > 0)
        out.mean = {100 * all.color[0] / all.pixels, 100 * all.color[1] / all.pixels, 100 * all.color[2] / all.pixels};
    if (all.weight > 0) out.out_of_gamut = all.out / all.weight;
    return out;
}

}  // namespace foretone::photo
