// A ray of height H and width w, crossed ray_per_mm times on a millimetre of tangent, lies ray_per_mm/H times on a mm²
// of tangent plane. One candidate a cell, as for the pores.

#include "grain_rays.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/parallel.hpp"
#include "foretone/grain/noise.hpp"

namespace foretone::grain {
namespace {

constexpr double most_entries = 16e6;  // of the table: on very wide boards the steps of T are coarser

}  // namespace

Rays::Rays(const material::Grain& grain, int columns, double step, double low_mm, double high_mm, double fine_mm,
           std::uint64_t seed, int threads)
    : columns_(columns), low_(static_cast<float>(low_mm)) {
    const double bin = std::max({1e-3 * grain.ray_um.value / 8, fine_mm, (high_mm - low_mm) / 2000,
                                 (high_mm - low_mm) * columns / most_entries});
    per_mm_ = static_cast<float>(1 / bin);
    rows_ = std::max(2, static_cast<int>(std::ceil((high_mm - low_mm) / bin)) + 1);
    const std::size_t entries = static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns);
    sums_.reset(new float[entries]);  // each strip clears its own
    constexpr int strip = 160;        // columns that one thread draws at a time
    base::parallel_for(static_cast<std::size_t>((columns + strip - 1) / strip), static_cast<unsigned>(threads),
                       [&](std::size_t i) {
                           const int first = static_cast<int>(i) * strip;
                           draw(grain, step, low_mm, high_mm, bin, seed, first, std::min(columns, first + strip));
                       });
}

// Columns [first, end): rays in the same order whatever the strip.
void Rays::draw(const material::Grain& grain, double step, double low_mm, double high_mm, double bin,
                std::uint64_t seed, int first, int end) {
    const double height = grain.ray_mm.value, width = 1e-3 * grain.ray_um.value;
    const double per_mm2 = grain.ray_per_mm.value / (0.85 * height);
    const double cell_x = std::min(height, 3 / std::sqrt(per_mm2)), cell_t = 1 / (per_mm2 * cell_x);
    const auto k0 = static_cast<std::int64_t>(std::floor((first * step - height) / cell_x)) - 1,
               k1 = static_cast<std::int64_t>(std::ceil((end * step + height) / cell_x));
    const auto j0 = static_cast<std::int64_t>(std::floor((low_mm - width) / cell_t)),
               j1 = static_cast<std::int64_t>(std::ceil((high_mm + width) / cell_t));
    const auto at = [&](int row, int column) -> float& {
        return sums_[static_cast<std::size_t>(row) * static_cast<std::size_t>(columns_) +
                     static_cast<std::size_t>(column)];
    };
    for (int r = 0; r < rows_; ++r) std::fill(&at(r, first), &at(r, first) + (end - first), 0.0f);
    for (std::int64_t j = j0; j <= j1; ++j)
        for (std::int64_t k = k0; k <= k1; ++k) {
            const std::uint32_t h = hash(seed, k, j), h2 = next(h), h3 = next(h2), h4 = next(h3), h5 = next(h4);
            const double x = (static_cast<double>(k) + unit(h)) * cell_x,
                         t = (static_cast<double>(j) + unit(h2)) * cell_t;
            const double tall = 0.5 * height * (0.35 + unit(h3)), wide = 0.5 * width * (0.6 + 0.8 * unit(h4));
            const double strong = 0.6 + 0.4 * unit(h5);  // not all rays stand out alike
            const int c0 = std::max(first, static_cast<int>((x - tall) / step)),
                      c1 = std::min(end - 1, static_cast<int>((x + tall) / step));
            for (int c = c0; c <= c1; ++c) {
                const double along = ((c + 0.5) * step - x) / tall;
                const double half = wide * (1 - along * along);
                if (half <= 0) continue;
                const double u0 = (t - half - low_mm) / bin, u1 = (t + half - low_mm) / bin;
                const int r0 = std::max(0, static_cast<int>(std::floor(u0))),
                          r1 = std::min(rows_ - 2, static_cast<int>(std::floor(u1)));
                for (int r = r0; r <= r1; ++r) {
                    const double share = std::min(u1, r + 1.0) - std::max(u0, static_cast<double>(r));
                    float& cell = at(r + 1, c);
                    cell = static_cast<float>(std::min(bin, static_cast<double>(cell) + bin * share * strong));
                }
            }
        }
    for (int r = 1; r < rows_; ++r)
        for (int c = first; c < end; ++c) at(r, c) += at(r - 1, c);
}

void Rays::lend(PixelTables& t) const {
    t.rays = sums_.get();
    t.ray_rows = rows_, t.ray_columns = columns_;
    t.ray_low = low_, t.per_ray = per_mm_;
}

}  // namespace foretone::grain
