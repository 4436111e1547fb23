#pragma once
/// What a board's figure says of how much each of its spots takes up: learned on a board of the same wood drawn from
/// its figures at the same scale, looked up for a photographed one.

#include <array>
#include <cstdint>
#include <functional>
#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::photo {

/// Shades of a grid of cells against the board's middle one; `wood` 0 where there is none.
struct ShadeGrid {
    int columns = 0, rows = 0;
    std::vector<float> shade;
    std::vector<std::uint8_t> wood;

    std::size_t at(int x, int y) const { return std::size_t(y) * std::size_t(columns) + std::size_t(x); }
};

/// Which way the grain runs, a unit vector: at right angles to where shade changes most (structure tensor); along x on
/// a grid that tells nothing. `only`: cells of that mark, 0 all.
std::array<double, 2> grain_direction(const ShadeGrid& grid, std::uint8_t only = 0);

/// Each cell's mean over `reach` cells either way along the grain: rings and streaks stay, pores and fibres go.
std::vector<float> along_grain(const ShadeGrid& grid, const std::array<double, 2>& direction, double reach,
                               std::uint8_t only = 0, int threads = 1);

/// How a drawn board of the wood takes up, by its rings and by what stands out of them.
class FigureUptake {
public:
    /// Cells of `block` pixels, each pixel `mm_per_px` wide. `light_of_shade` is the bare wood's luminance over shade
    /// and `shade_of_light` its inverse: cells average light.
    FigureUptake(const material::Wood& wood, double mm_per_px, int block,
                 const std::function<double(double)>& light_of_shade,
                 const std::function<double(double)>& shade_of_light);

    /// How far along the grain a cell is averaged, in cells.
    double reach() const { return reach_; }
    /// The drawn board's spreads, middle to the outer tenths, to scale a photographed board's by.
    double ring_spread() const { return ring_spread_; }
    double detail_spread() const { return detail_spread_; }

    /// ln of uptake over the wood's mean, of a spot whose rings lie `ring` above the board's middle shade and which
    /// itself lies `detail` above its rings.
    float ln_uptake(float ring, float detail) const {
        const float a = place(ring, ring_low_, ring_scale_, rings),
                    b = place(detail, detail_low_, detail_scale_, details);
        const auto i = static_cast<std::size_t>(a), j = static_cast<std::size_t>(b);
        const float f = a - float(i), g = b - float(j);
        const float* at = &table_[i * details + j];
        const float low = at[0] + g * (at[1] - at[0]), high = at[details] + g * (at[details + 1] - at[details]);
        return low + f * (high - low);
    }

    /// The table for loops over pixels: the corners of each cell between four entries, `details` cells a row of which
    /// the last is none, and where a value lies in it.
    struct Cells {
        std::vector<float> corners;
        int columns = 0;
        float ring_low, per_ring, ring_last, detail_low, per_detail, detail_last;
    };
    Cells cells() const;

    /// The same of a photographed board, whose spreads are the drawn one's divided by `ring_scale` and `detail_scale`.
    float ln_uptake_scaled(float shade, float ring, float ring_scale, float detail_scale) const {
        return ln_uptake(ring_scale * ring, detail_scale * (shade - ring));
    }

private:
    static constexpr std::size_t rings = 24, details = 32;
    static constexpr float last(std::size_t n) { return float(n) - 1.01F; }
    static float place(float v, float low, float scale, std::size_t n) {
        const float p = (v - low) * scale;
        return p > 0 ? (p < last(n) ? p : last(n)) : 0.0F;
    }

    double reach_ = 1, ring_spread_ = 1, detail_spread_ = 1;
    float ring_low_ = -1, ring_scale_ = 1, detail_low_ = -1, detail_scale_ = 1;
    std::vector<float> table_;
};

/// Half the way from the lowest to the highest tenth of the values, at least 1e-3.
double spread_of(std::vector<float> values);

/// ln of what a wood's blotches add to uptake, over a grid of cells `cell_mm` wide; 0 throughout for a wood without.
std::vector<float> blotches(const material::Wood& wood, int columns, int rows, double cell_mm);

}  // namespace foretone::photo
