// One ring, p from 0 (spring) to 1 (autumn): earlywood, a passage as abrupt as the species has it, latewood, a last
// line. Widths are lognormal about the figure, neighbours alike by half; each ring has its own latewood.

#include "grain_rings.hpp"

#include <algorithm>

#include "foretone/grain/noise.hpp"

namespace foretone::grain {
namespace {

double smooth(double t) {
    t = std::clamp(t, 0.0, 1.0);
    return t * t * (3 - 2 * t);
}

struct Ring {
    double start, width, late_share, late_shade, line_shade, level;
    double color[2];  // of the two streaks, variance 1
};

Ring make_ring(const material::Grain& g, std::int64_t k, double start, std::uint64_t seed) {
    const LineNoise years(seed + 1, 2.3);
    const auto draw = [&](int n) { return centred(hash(seed + 2, k, n)); };
    const double s = g.ring_variation.value;
    const double n = 0.55 * years(static_cast<double>(k)) + 0.83 * draw(0);
    Ring r{};
    r.start = start;
    r.width = g.ring_mm.value * std::exp(s * n - 0.5 * s * s);
    r.late_share = std::clamp(g.late_share.value * (1 + 0.22 * draw(1) - 0.15 * n * s), 0.02, 0.9);
    r.late_shade = g.late_shade.value * std::max(0.2, 1 + 0.22 * draw(2));
    r.line_shade = g.line_shade.value * std::max(0.1, 1 + 0.35 * draw(3));
    r.level = 0.12 * g.late_shade.value * draw(4);
    for (int i = 0; i < 2; ++i)
        r.color[i] =
            0.6 * LineNoise(seed + 3 + static_cast<std::uint64_t>(i), 1.7)(static_cast<double>(k)) + 0.8 * draw(5 + i);
    return r;
}

struct Wood {
    double shade, uptake, large, small, size;
};

Wood inside(const material::Grain& g, const Ring& ring, double p) {
    const double late_start = 1 - ring.late_share;
    const double passage = 2 * std::min(late_start, ring.late_share) * (1 - g.late_abrupt.value) + 0.04;
    const double late = smooth((p - late_start) / passage + 0.5);
    const double from_end = (1 - p) * ring.width;
    const double line = g.line_mm.value > 0 ? 1 - smooth(from_end / g.line_mm.value) : 0;
    Wood w{};
    w.shade = ring.level + ring.late_shade * (0.88 * late + 0.12 * p) + ring.line_shade * line;
    w.uptake = 1 + (g.late_uptake.value - 1) * late;
    const double zone = std::max(0.02, g.pore_zone.value);
    switch (g.pores) {
        case material::Pores::ring:
            w.large = 1 - smooth((p - zone) / (0.35 * zone) + 0.5);
            w.size = 1 - 0.25 * p / zone;
            w.small = 1 - w.large;
            break;
        case material::Pores::semi_ring:
            w.large = 1 - 0.75 * smooth(p / zone);
            w.size = 1 - 0.55 * smooth(p / zone);
            w.small = smooth(p / zone);
            break;
        case material::Pores::diffuse:
            w.large = 1 - 0.55 * smooth((p - 0.75) / 0.25);
            w.size = 1 - 0.2 * p;
            break;
        case material::Pores::resin:
            w.large = smooth((p - (1 - zone)) / (0.3 * zone) + 0.5);
            w.size = 1;
            break;
        case material::Pores::none:
            break;
    }
    return w;
}

// Streaks of color: what is laid down differs from ring to ring with a sharp edge between, less within a ring, down to
// lines finer than a tenth of a millimetre; dark lines are a little narrower than pale ground, as of a
// lognormal. Variance 1.
class Streaks {
public:
    Streaks(std::uint64_t seed, double cell_mm)
        : octaves_{
              {seed, cell_mm}, {seed + 2, 0.31 * cell_mm}, {seed + 20, 0.1 * cell_mm}, {seed + 22, 0.033 * cell_mm}} {}

    double at(double r, double ring_color) const {
        constexpr double share[] = {0.50, 0.42, 0.33, 0.27}, of_ring = 0.62, bend = 0.15;
        double sum = of_ring * ring_color;
        for (std::size_t n = 0; n < 4; ++n) sum += share[n] * octaves_[n](r);
        const double square = std::exp(bend * bend), spread = std::sqrt(square * (square - 1));
        return (std::exp(bend * sum) - std::sqrt(square)) / spread;
    }

private:
    LineNoise octaves_[4];
};

}  // namespace

Rings::Rings(const material::Grain& g, const Tone& tone, double low_mm, double high_mm, std::uint64_t seed)
    : low_(step_mm * std::floor(std::max(0.0, low_mm) / step_mm)) {
    const auto count = static_cast<std::size_t>(std::max(2.0, std::ceil((high_mm - low_) / step_mm)));
    struct Sums {
        double bright = 0, uptake = 0;
    };
    std::vector<Sums> sums(count + 1);
    local_.resize(count);
    const double cell = std::max(0.2, 0.5 * g.streak_mm.value);
    const Streaks streak[] = {{seed + 5, cell}, {seed + 6, cell}};
    const LineNoise twist(seed + 9, 0.36 * std::max(1.0, g.ribbon_mm.value));
    Ring ring = make_ring(g, 0, 0, seed);
    std::int64_t k = 0;
    for (std::size_t i = 0; i < count; ++i) {
        const double r = low_ + (static_cast<double>(i) + 0.5) * step_mm;
        while (r >= ring.start + ring.width) ++k, ring = make_ring(g, k, ring.start + ring.width, seed);
        const Wood w = inside(g, ring, (r - ring.start) / ring.width);
        sums[i + 1] = {sums[i].bright + static_cast<double>(tone.bright(static_cast<float>(w.shade))),
                       sums[i].uptake + w.uptake};
        Local& local = local_[i];
        streaks_.push_back(paired(static_cast<float>(streak[0].at(r, ring.color[0])),
                                  static_cast<float>(streak[1].at(r, ring.color[1]))));
        twist_.push_back(static_cast<float>(twist(r)));
        local.large = static_cast<float>(w.large), local.small = static_cast<float>(w.small),
        local.size = static_cast<float>(w.size);
    }
    bright_mean_ = static_cast<float>(sums.back().bright / static_cast<double>(count));
    uptake_mean_ = static_cast<float>(sums.back().uptake / static_cast<double>(count));
    std::vector<float> bright, uptake;
    for (std::size_t i = 0; i <= count; ++i) {
        bright.push_back(
            static_cast<float>(sums[i].bright - static_cast<double>(bright_mean_) * static_cast<double>(i)));
        uptake.push_back(
            static_cast<float>(sums[i].uptake - static_cast<double>(uptake_mean_) * static_cast<double>(i)));
    }
    bright_ = in_pairs(bright), uptake_ = in_pairs(uptake);
}

void Rings::lend(PixelTables& t) const {
    t.ring_bright = bright_.data(), t.ring_uptake = uptake_.data();
    t.ring_streaks = streaks_.data(), t.ring_twist = twist_.data();
    t.ring_low = static_cast<float>(low_), t.per_ring = static_cast<float>(1 / step_mm);
    t.ring_last = static_cast<float>(local_.size() - 1);
    t.bright_mean = bright_mean_, t.uptake_mean = uptake_mean_;
}

}  // namespace foretone::grain
