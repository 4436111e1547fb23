// A ray of height H and width w, crossed ray_per_mm times on a millimetre of tangent, lies ray_per_mm/H times on a mm²
// of tangent plane. One candidate a cell, as for the pores.

#include "grain_rays.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/grain/noise.hpp"

namespace foretone::grain {

Rays::Rays(const material::Grain& grain, int columns, double step, double low_mm, double high_mm, double fine_mm,
           std::uint64_t seed)
    : columns_(columns), low_(static_cast<float>(low_mm)) {
    const double height = grain.ray_mm.value, width = 1e-3 * grain.ray_um.value;
    const double bin = std::max({width / 8, fine_mm, (high_mm - low_mm) / 2000});
    per_mm_ = static_cast<float>(1 / bin);
    rows_ = std::max(2, static_cast<int>(std::ceil((high_mm - low_mm) / bin)) + 1);
    sums_.assign(static_cast<std::size_t>(rows_) * static_cast<std::size_t>(columns), 0.0f);
    const double per_mm2 = grain.ray_per_mm.value / (0.85 * height);
    const double cell_x = std::min(height, 3 / std::sqrt(per_mm2)), cell_t = 1 / (per_mm2 * cell_x);
    const auto k1 = static_cast<std::int64_t>(std::ceil((columns * step + height) / cell_x));
    const auto j0 = static_cast<std::int64_t>(std::floor((low_mm - width) / cell_t)),
               j1 = static_cast<std::int64_t>(std::ceil((high_mm + width) / cell_t));
    for (std::int64_t j = j0; j <= j1; ++j)
        for (auto k = static_cast<std::int64_t>(std::floor(-height / cell_x)); k <= k1; ++k) {
            const std::uint32_t h = hash(seed, k, j), h2 = next(h), h3 = next(h2), h4 = next(h3), h5 = next(h4);
            const double x = (static_cast<double>(k) + unit(h)) * cell_x,
                         t = (static_cast<double>(j) + unit(h2)) * cell_t;
            const double tall = 0.5 * height * (0.35 + unit(h3)), wide = 0.5 * width * (0.6 + 0.8 * unit(h4));
            const double strong = 0.6 + 0.4 * unit(h5);  // not all rays stand out alike
            const int c0 = std::max(0, static_cast<int>((x - tall) / step)),
                      c1 = std::min(columns - 1, static_cast<int>((x + tall) / step));
            for (int c = c0; c <= c1; ++c) {
                const double along = ((c + 0.5) * step - x) / tall;
                const double half = wide * (1 - along * along);
                if (half <= 0) continue;
                const double u0 = (t - half - low_mm) / bin, u1 = (t + half - low_mm) / bin;
                const int r0 = std::max(0, static_cast<int>(std::floor(u0))),
                          r1 = std::min(rows_ - 2, static_cast<int>(std::floor(u1)));
                for (int r = r0; r <= r1; ++r) {
                    const double share = std::min(u1, r + 1.0) - std::max(u0, static_cast<double>(r));
                    float& cell = sums_[static_cast<std::size_t>(r + 1) * static_cast<std::size_t>(columns) +
                                        static_cast<std::size_t>(c)];
                    cell = static_cast<float>(std::min(bin, static_cast<double>(cell) + bin * share * strong));
                }
            }
        }
    for (std::size_t i = static_cast<std::size_t>(columns); i < sums_.size(); ++i)
        sums_[i] += sums_[i - static_cast<std::size_t>(columns)];
}

}  // namespace foretone::grain
