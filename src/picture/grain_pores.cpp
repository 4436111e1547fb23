// Vessels of diameter d, N to the mm² of cross-section, dip in and out of a face that runs along them. A vessel that leaves a groove of
// length L is met N·d/L times on a mm² of face; the face is then covered by about N·π d²/4, the pores' share of the cross-section.
//
// The plane is divided into cells that each hold one candidate at a place of its own; a candidate becomes a groove by the chance at
// its place. Cells are visited in the same order whatever the band, so that bands fit.

#include "grain_pores.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::picture {
namespace {

// Share of the unit interval at `row` that [low, high] covers.
float overlap(double low, double high, int row) {
    return static_cast<float>(std::max(0.0, std::min(high, row + 1.0) - std::max(low, static_cast<double>(row))));
}

struct Groove {
    double x, y, half_length, half_width, slope;  // mm
};

void draw(const Band& band, const Groove& g, float* cover) {
    const double x0 = (g.x - g.half_length) / band.step, x1 = (g.x + g.half_length) / band.step;
    const int c0 = std::max(0, static_cast<int>(std::floor(x0))), c1 = std::min(band.width - 1, static_cast<int>(std::floor(x1)));
    for (int c = c0; c <= c1; ++c) {
        const double along = std::min(x1, c + 1.0) - std::max(x0, static_cast<double>(c));
        const double mid = 0.5 * (std::min(x1, c + 1.0) + std::max(x0, static_cast<double>(c))) * band.step;
        const double t = (mid - g.x) / g.half_length;
        const double half = g.half_width * (1 - t * t * t * t) / band.step;
        const double row = (g.y + g.slope * (mid - g.x) + band.centre_mm) / band.step;
        const int r0 = std::max(band.first, static_cast<int>(std::floor(row - half)));
        const int r1 = std::min(band.end - 1, static_cast<int>(std::floor(row + half)));
        for (int r = r0; r <= r1; ++r)
            cover[static_cast<std::size_t>(r - band.first) * static_cast<std::size_t>(band.width) + static_cast<std::size_t>(c)] +=
                static_cast<float>(along) * overlap(row - half, row + half, r);
    }
}

}  // namespace

int groove_margin(const Grooves& g, double slope, double step) {
    return 2 + static_cast<int>(std::ceil((0.8 * g.length_mm * slope + 0.6 * g.width_mm) / step));
}

void add_grooves(const Band& band, const Grooves& grooves, const Log& log, const Chance& chance, float* cover) {
    if (!(grooves.per_mm2 > 0)) return;
    const double cell_x = std::min(grooves.length_mm, 1 / std::sqrt(grooves.per_mm2) * 3), cell_y = 1 / (grooves.per_mm2 * cell_x);
    const auto k1 = static_cast<std::int64_t>(std::ceil((band.width * band.step + grooves.length_mm) / cell_x));
    for (auto k = static_cast<std::int64_t>(std::floor(-grooves.length_mm / cell_x)); k <= k1; ++k) {
        const double middle = (static_cast<double>(k) + 0.5) * cell_x, slope = log.turn(middle), drift = log.drift(middle);
        const double reach = std::abs(slope) * (cell_x + 0.8 * grooves.length_mm) + grooves.width_mm;
        const auto j0 = static_cast<std::int64_t>(std::floor((band.y(band.first) - drift - reach) / cell_y));
        const auto j1 = static_cast<std::int64_t>(std::floor((band.y(band.end) - drift + reach) / cell_y));
        for (std::int64_t j = j0; j <= j1; ++j) {
            const std::uint32_t h = hash(grooves.seed, k, j), h2 = next(h), h3 = next(h2), h4 = next(h3), h5 = next(h4);
            Groove g{};
            g.x = (static_cast<double>(k) + unit(h)) * cell_x;
            g.slope = slope;
            g.y = (static_cast<double>(j) + unit(h2)) * cell_y + drift + slope * (g.x - middle);
            g.half_length = 0.5 * grooves.length_mm * (0.4 + 1.2 * unit(h3));
            const double deep = unit(h4);  // how deep the face has cut into the vessel
            g.half_width = 0.5 * grooves.width_mm * std::sqrt(1 - 0.9 * deep * deep);
            const int row = static_cast<int>(std::floor((g.y + band.centre_mm) / band.step));
            const int column = std::clamp(static_cast<int>(g.x / band.step), 0, band.width - 1);
            if (g.x + g.half_length < 0 || g.x - g.half_length > band.width * band.step) continue;
            const double spread = std::abs(slope) * g.half_length + g.half_width;
            if (g.y + spread < band.y(band.first) || g.y - spread > band.y(band.end)) continue;
            const auto [share, size] = chance(column, row);
            if (unit(h5) >= static_cast<double>(share)) continue;
            g.half_width *= static_cast<double>(size);
            draw(band, g, cover);
        }
    }
}

}  // namespace foretone::picture
