// Finding the board: which pixels could be this wood, and how this board differs from the library's.
//
// Symbols: Y luminance · s shade that bare wood of luminance Y has · P(Y) color of that wood · offset: the board's hue
// and chroma against P, found as the mode over blocks of pixels in Δa*, Δb*, then kept as a difference in shade for X
// and for Z alone, so that it grows and shrinks with the wood as K/S does. A block's distance d is √(Δa*² + Δb*²) from
// P with the offset: L* agrees by construction. Full weight below d = 8 or 0.4 of P's chroma, none above 16 or 0.75 of
// it, whichever is less (choices; grey things are a full chroma away). Specks under about four blocks are taken with
// what surrounds them, so that pores and glints belong to the wood and single pixels of noise do not. Where board and
// surroundings meet, each pixel is judged by itself (photo_edge.cpp).

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "foretone/base/parallel.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/photo/photo.hpp"
#include "median.hpp"
#include "photo_area.hpp"
#include "photo_curve.hpp"

namespace foretone::photo {
namespace {

constexpr std::size_t shade_samples = 513;
constexpr double far_offset = 25, least_chroma = 0.3;  // what may be this wood at all: ΔE*ab, share of its chroma
constexpr double window = 8;
constexpr double least_share = 0.02;
constexpr double most_looked_at = 60000;  // blocks
constexpr int closing = 2;                // blocks
constexpr int beyond = 5;                 // blocks around a marked part: closing, edges and softness all lie outside it
constexpr double beside = 0.35;           // shade: lamps, sanding and noise make this much of wood's own variation

// The cube root of 0.0088 to 10 within 1e-6 of itself: a third of the exponent and two steps of Halley's.
float cube_root(float v) {
    std::uint32_t bits = 0;
    std::memcpy(&bits, &v, sizeof bits);
    bits = bits / 3 + 0x2a5137a0U;
    float r = 0;
    std::memcpy(&r, &bits, sizeof r);
    for (int round = 0; round < 2; ++round) {
        const float cubed = r * r * r;
        r *= (cubed + 2 * v) / (2 * cubed + v);
    }
    return r;
}

float root(float v) { return v > 0.008856452F ? cube_root(v) : 7.787037F * v + 4.0F / 29.0F; }

struct Chroma {
    float a = 0, b = 0;
};

// Without std::hypot's care for numbers that no color has.
double distance(double a, double b) { return std::sqrt(a * a + b * b); }
float distance(float a, float b) { return std::sqrt(a * a + b * b); }

Chroma chroma(float x, float y, float z) {
    const float fy = root(y);
    return {500 * (root(x / d65_white[0]) - fy), 200 * (fy - root(z / d65_white[2]))};
}

// How far the palest wood lies below the middle: early or late wood (p share of late wood, d its shade against early
// wood: with the mean of both kept, early wood lies at −p d, late at (1 − p) d), and two standard deviations of what
// else varies.
double palest_below_middle(const material::Wood& wood) {
    if (!wood.grain) return -1;
    const auto& g = *wood.grain;
    const double p = std::clamp(g.late_share.value, 0.0, 1.0), d = g.late_shade.value;
    return (d > 0 ? -p * d : (1 - p) * d) -
           2 * std::hypot(g.streak_shade.value, g.drift_shade.value, g.fibre_shade.value) - beside;
}

// Lowest (or highest) of each run of 2r + 1 along rows, then along columns.
std::vector<float> extreme(const std::vector<float>& from, int columns, int rows, int r, bool highest,
                           unsigned threads) {
    const auto n = static_cast<std::size_t>(columns);
    const auto take = [highest](float* to, const float* more, std::size_t count) {
        if (highest)
            for (std::size_t i = 0; i < count; ++i) to[i] = std::max(to[i], more[i]);
        else
            for (std::size_t i = 0; i < count; ++i) to[i] = std::min(to[i], more[i]);
    };
    std::vector<float> across(from.size()), out(from.size());
    base::parallel_rows(rows, threads, [&](int first, int end) {
        for (int y = first; y < end; ++y) {
            const float* in = &from[std::size_t(y) * n];
            float* to = &across[std::size_t(y) * n];
            std::copy(in, in + n, to);
            for (std::size_t k = 1; k <= std::min(std::size_t(r), n - 1); ++k)
                take(to, in + k, n - k), take(to + k, in, n - k);
        }
    });
    base::parallel_rows(rows, threads, [&](int first, int end) {
        for (int y = first; y < end; ++y) {
            float* to = &out[std::size_t(y) * n];
            std::copy_n(&across[std::size_t(y) * n], n, to);
            for (int v = std::max(0, y - r); v <= std::min(rows - 1, y + r); ++v)
                take(to, &across[std::size_t(v) * n], n);
        }
    });
    return out;
}

std::vector<float> softened(const std::vector<float>& from, int columns, int rows, unsigned threads) {
    std::vector<float> out(from.size());
    base::parallel_rows(rows, threads, [&](int first, int end) {
        for (int y = first; y < end; ++y) {
            for (int x = 0; x < columns; ++x) {
                float sum = 0;
                int n = 0;
                for (int j = std::max(0, y - 1); j <= std::min(rows - 1, y + 1); ++j)
                    for (int i = std::max(0, x - 1); i <= std::min(columns - 1, x + 1); ++i, ++n)
                        sum += from[std::size_t(j * columns + i)];
                out[std::size_t(y * columns + x)] = sum / float(n);
            }
        }
    });
    return out;
}

// XYZ, Y = 1, as seen by who is used to the lamp of `bare`, for D65.
std::array<double, 3> in_first_lamp(const color::Xyz& xyz, const appearance::ToneTable& bare) {
    const auto c = color::adapt(xyz, bare.white(), color::srgb_white);
    return {c.x / 100, c.y / 100, c.z / 100};
}

// The densest spot of weighted points within ±far_offset: peak of a histogram of 2-unit cells, then the mean of its
// window.
struct Point {
    double a = 0, b = 0, weight = 0;
};

Point mode(const std::vector<Point>& points) {
    constexpr int n = 26;
    std::vector<double> cells(std::size_t(n * n));
    const auto cell = [](double v) { return std::clamp(static_cast<int>((v + far_offset) / 2), 0, n - 1); };
    for (const auto& p : points) cells[std::size_t(cell(p.b) * n + cell(p.a))] += p.weight;
    double most = -1;
    Point at;
    for (int j = 0; j < n; ++j) {
        for (int i = 0; i < n; ++i) {
            double sum = 0;
            for (int v = std::max(0, j - 1); v <= std::min(n - 1, j + 1); ++v)
                for (int u = std::max(0, i - 1); u <= std::min(n - 1, i + 1); ++u) sum += cells[std::size_t(v * n + u)];
            if (sum <= most) continue;
            most = sum;
            at = {2 * i + 1 - far_offset, 2 * j + 1 - far_offset, sum};
        }
    }
    for (int round = 0; round < 8; ++round) {
        Point sum;
        for (const auto& p : points) {
            if (distance(p.a - at.a, p.b - at.b) > window) continue;
            sum.a += p.weight * p.a;
            sum.b += p.weight * p.b;
            sum.weight += p.weight;
        }
        if (sum.weight > 0) at = {sum.a / sum.weight, sum.b / sum.weight, sum.weight};
    }
    return at;
}

}  // namespace

PhotoBoard::PhotoBoard(const Pixels& pixels, const Correction& correction, const appearance::ToneTable& bare,
                       const material::Wood& wood, const light::Box* card, int threads)
    : PhotoBoard(pixels, correction, bare, wood,
                 Placing{card ? std::vector<Card>{{*card}} : std::vector<Card>{},
                         {},
                         {},
                         false,
                         0,
                         threads,
                         nullptr,
                         {},
                         nullptr}) {}

PhotoBoard::PhotoBoard(const Pixels& pixels, const Correction& correction, const appearance::ToneTable& bare,
                       const material::Wood& wood, const Placing& placing)
    : pixels_(pixels), threads_(placing.threads), said_even_(placing.even_light) {
    const std::size_t count = 3 * std::size_t(std::max(pixels.width, 0)) * std::size_t(std::max(pixels.height, 0));
    if (count == 0 || pixels.rgb.size() != count)
        throw std::invalid_argument("photo::PhotoBoard: sides and pixels disagree");
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) m_[r][c] = static_cast<float>(correction.to_xyz[r][c] / 65535);
    choose_cones();
    read_cards(placing);
    block_ = std::max(2, (std::max(pixels.width, pixels.height) + 500) / 1000);
    columns_ = (pixels.width + block_ - 1) / block_;
    rows_ = (pixels.height + block_ - 1) / block_;
    average_blocks();
    sample_tones(bare, placing.second_lamp);
    cover_boards(placing);
    even_ = means_;
    if (!placing.even_light) find_light(wood, placing);
    find(wood);
    mask(own_);
    read_figure(wood, placing);
    measure();
}

void PhotoBoard::average_blocks() {
    means_.resize(std::size_t(columns_) * std::size_t(rows_));
    base::parallel_rows(rows_, threads_, [&](int first, int end) {
        for (int j = first; j < end; ++j) {
            for (int i = 0; i < columns_; ++i) {
                const int x0 = i * block_, x1 = std::min(x0 + block_, pixels_.width),
                          y1 = std::min((j + 1) * block_, pixels_.height);
                std::uint64_t sum[3] = {};
                for (int y = j * block_; y < y1; ++y) {
                    const auto* v = &pixels_.rgb[3 * (std::size_t(y) * std::size_t(pixels_.width) + std::size_t(x0))];
                    for (int x = x0; x < x1; ++x, v += 3)
                        for (int c = 0; c < 3; ++c) sum[c] += v[c];
                }
                const float n = float((x1 - x0) * (y1 - j * block_));
                auto& mean = means_[std::size_t(j * columns_ + i)];
                for (std::size_t r = 0; r < 3; ++r) {
                    mean[r] = (m_[r][0] * float(sum[0]) + m_[r][1] * float(sum[1]) + m_[r][2] * float(sum[2])) / n;
                }
            }
        }
    });
}

void PhotoBoard::sample_tones(const appearance::ToneTable& bare, const appearance::ToneTable* second) {
    first_shade_ = bare.range().shade_low;
    shade_step_ = (bare.range().shade_high - first_shade_) / double(shade_samples - 1);
    for (std::size_t i = 0; i < shade_samples; ++i) {
        const double s = first_shade_ + double(i) * shade_step_;
        tones_.push_back(in_first_lamp(bare.reading(s, 1), bare));
        if (second) second_tones_.push_back(in_first_lamp(second->reading(s, 1), bare));
    }
    if (second) {
        second_white_ = in_first_lamp(second->white(), bare);
        by_lamp_ = wood_by_lamp(bare, *second);
    }
    slopes_ = log_slopes(tones_, shade_step_);
    palest_ = first_shade_;
}

int PhotoBoard::looked_at_step() const {
    return std::max(1, static_cast<int>(std::sqrt(double(columns_) * rows_ / most_looked_at)));
}

// What may be this wood: blocks whose color lies within `near` of the one that most have; the middle of the picture
// counts most.
PhotoBoard::Likely PhotoBoard::likely_blocks(double near, double out_from_middle) const {
    const Curve plain = curve();
    std::vector<Point> points;
    std::vector<std::size_t> at_block;
    std::size_t allowed = 0;
    const int step = looked_at_step();
    for (int j = step / 2; j < rows_; j += step) {
        for (int i = step / 2; i < columns_; i += step) {
            const auto k = std::size_t(j * columns_ + i);
            const double u = 2.0 * i / columns_ - 1, w = 2.0 * j / rows_ - 1, out = std::max(std::abs(u), std::abs(w));
            if (allowed_[k] < 0.5F || out > out_from_middle) continue;
            ++allowed;
            const auto& v = even_[k];
            if (!(v[1] < tones_.front()[1] && v[1] > tones_.back()[1])) continue;
            const Entry e = entry_at(plain, v[1]);
            const Chroma own = chroma(v[0], v[1], v[2]), due = chroma(e.px, v[1], e.pz);
            const double da = double(own.a) - double(due.a), db = double(own.b) - double(due.b);
            const bool colored =
                distance(double(own.a), double(own.b)) > least_chroma * distance(double(due.a), double(due.b));
            if (!colored || distance(da, db) > far_offset || !(v[0] > 0 && v[2] > 0)) continue;
            points.push_back({da, db, 1.25 - out});
            at_block.push_back(k);
        }
    }
    const Point at = points.empty() ? Point{} : mode(points);
    Likely out{{}, 0, at.a, at.b, double(points.size()) / double(std::max<std::size_t>(allowed, 1))};
    for (std::size_t k = 0; k < points.size(); ++k)
        if (distance(points[k].a - at.a, points[k].b - at.b) <= near) out.blocks.push_back(at_block[k]);
    out.allowed = allowed;
    return out;
}

// How this board's color differs from the library's wood.
void PhotoBoard::find(const material::Wood& wood) {
    const Likely likely = likely_blocks(window, 1);
    if (double(likely.blocks.size()) < least_share * double(std::max<std::size_t>(likely.allowed, 1))) {
        throw PhotoFault("photo-no-wood",
                         "hardly anything in the picture could be this wood: of " + std::to_string(likely.allowed) +
                             " spots " + std::to_string(likely.blocks.size()) + " have one color near the wood's, " +
                             std::to_string(std::lround(100 * likely.like_share)) +
                             " % are at all like it. Is it the wood that the scene names, is the card marked "
                             "right, and does the board fill the picture?");
    }
    const Curve plain = curve();
    std::vector<double> shades, x, z;  // of each channel: Y, and what X and Z have beside it
    for (const auto k : likely.blocks) {
        const auto& v = even_[k];
        const Entry e = entry_at(plain, v[1]);
        const double s = spot(double(v[1])).shade;
        const auto& slope =
            slopes_[std::min(std::size_t(std::max(0.0, (s - first_shade_) / shade_step_)), shade_samples - 1)];
        x.push_back(std::log(double(v[0] / e.px)) / slope[0]);
        shades.push_back(s);
        z.push_back(std::log(double(v[2] / e.pz)) / slope[2]);
    }
    offset_de_ = std::hypot(likely.a, likely.b);
    shade_ = median(shades);
    offset_ = {median(x), 0, median(z)};

    palest_ = std::max(first_shade_, shade_ + palest_below_middle(wood));
    if (!second_tones_.empty()) second_usual_ = second_over_first({shade_, 0, 1});
    own_ = curve();
}

void PhotoBoard::mask(const Curve& bare) {
    const auto threads = static_cast<unsigned>(threads_);
    const auto widest = [&](const auto& v, int r) { return extreme(v, columns_, rows_, r, true, threads); };
    const auto narrowest = [&](const auto& v, int r) { return extreme(v, columns_, rows_, r, false, threads); };
    // Within a marked part nothing but the wood itself decides; what lies outside is cut off pixel by pixel.
    auto may = allowed_;
    if (!area_->all()) {
        for (float& m : may) m = m > 0 ? 1.0F : 0.0F;
        may = widest(may, beyond);
        for (std::size_t k = 0; k < may.size(); ++k)
            if (on_card_[k]) may[k] = 0;
    }
    std::vector<float> w(means_.size());
    base::parallel_rows(rows_, threads_, [&](int first, int end) {
        for (std::size_t k = std::size_t(first * columns_); k < std::size_t(end * columns_); ++k)
            w[k] = std::min(may[k], likeness(bare, even_[k]));
    });
    // Closing fills what is small within the wood, opening removes what is small outside it.
    w = narrowest(widest(w, closing), closing);
    w = widest(narrowest(w, closing), closing);
    const auto inside = narrowest(w, 1), within = widest(w, 1);
    sure_ = softened(inside, columns_, rows_, threads);
    maybe_ = softened(within, columns_, rows_, threads);
    find_edges(inside, within);
    for (std::size_t k = 0; k < allowed_.size(); ++k) {
        sure_[k] = std::min(sure_[k], may[k]);
        maybe_[k] = std::min(maybe_[k], may[k]);
    }
}

float PhotoBoard::likeness(const Curve& bare, const std::array<float, 3>& c) const {
    const Entry e = entry_at(bare, c[1]);
    const Chroma own = chroma(c[0], c[1], c[2]), due = chroma(e.px, c[1], e.pz);
    const float d = distance(own.a - due.a, own.b - due.b), all = distance(due.a, due.b);
    const float inner = std::min(8.0F, 0.4F * all), outer = std::min(16.0F, 0.75F * all);
    const float t = std::clamp((outer - d) / std::max(outer - inner, 1e-3F), 0.0F, 1.0F);
    return t * t * (3 - 2 * t);
}

void PhotoBoard::mask_row(int y, MaskRow& row) const {
    const float v = std::clamp((float(y) + 0.5F) / float(block_) - 0.5F, 0.0F, float(rows_ - 1));
    const int j = std::min(static_cast<int>(v), std::max(rows_ - 2, 0));
    const float f = v - float(j);
    const std::size_t down = rows_ > 1 ? std::size_t(columns_) : 0, at = std::size_t(j) * std::size_t(columns_);
    row.sure.resize(std::size_t(columns_) + 1);
    row.maybe.resize(std::size_t(columns_) + 1);
    for (std::size_t i = 0; i < std::size_t(columns_); ++i) {
        row.sure[i] = sure_[at + i] + f * (sure_[at + down + i] - sure_[at + i]);
        row.maybe[i] = maybe_[at + i] + f * (maybe_[at + down + i] - maybe_[at + i]);
    }
    row.sure.back() = row.sure[row.sure.size() - 2];
    row.maybe.back() = row.maybe[row.maybe.size() - 2];
}

float PhotoBoard::weight(int x, int y) const {
    MaskRow row;
    mask_row(y, row);
    const auto* v = &pixels_.rgb[3 * (std::size_t(y) * std::size_t(pixels_.width) + std::size_t(x))];
    std::vector<float> area;
    area_->row(y, pixels_.width, area);
    return area[std::size_t(x)] * share_of_wood(row, x, y, color_of(v)).wood;
}

}  // namespace foretone::photo
