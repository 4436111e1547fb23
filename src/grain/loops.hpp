#pragma once
// The loops over a row's pixels, for the widest instruction set there is; the same bytes for every one.

#include <algorithm>
#include <cstdint>
#include <vector>

#include "foretone/base/bits.hpp"
#include "foretone/base/isa.hpp"

namespace foretone::grain {

/// Two numbers side by side, to be read at once.
inline std::uint64_t paired(float first, float second) {
    return base::bit_cast<std::uint32_t>(first) | std::uint64_t{base::bit_cast<std::uint32_t>(second)} << 32;
}

/// Every entry of a table with the next; the last with itself.
inline std::vector<std::uint64_t> in_pairs(const std::vector<float>& table) {
    std::vector<std::uint64_t> out;
    for (std::size_t i = 0; i < table.size(); ++i)
        out.push_back(paired(table[i], table[std::min(i + 1, table.size() - 1)]));
    return out;
}

/// Tables and figures that all rows share.
struct PixelTables {
    // Rings, by steps of radius: sums of brightness and of uptake, less their mean slopes, each with the next; and what
    // changes slowly (Rings::Local), the two streaks as a pair.
    const std::uint64_t *ring_bright = nullptr, *ring_uptake = nullptr, *ring_streaks = nullptr;
    const float* ring_twist = nullptr;
    float ring_low = 0, per_ring = 1, ring_last = 0, bright_mean = 0, uptake_mean = 1;
    // Brightness by shade and back (Tone), each entry with the next.
    const std::uint64_t *bright = nullptr, *shade = nullptr;
    float shade_low = 0, shade_high = 0, per_shade = 1, brightest = 0, per_bright = 1;
    int tone_last = 1;
    // Rays (Rays), if there are any.
    const float* rays = nullptr;
    int ray_rows = 0, ray_columns = 0;
    float ray_low = 0, per_ray = 1;
    float twist = 0, middle_shade = 0, open_shade = 0, end_uptake = 0;
    float ray_shade = 0, ray_end_shade = 0, pore_shade = 0, pore_uptake = 1;
};
inline constexpr int pixel_block = 256;  // that `draw_pixels` takes at a time
inline constexpr int groove_pad = 16;    // values that `add_groove` may add nothing to, beyond its own

/// One row's own: corners above and below, and what was drawn for its pixels.
struct PixelRow {
    const float *radius = nullptr, *radius_below = nullptr, *tangent = nullptr, *tangent_below = nullptr;
    const float *drift = nullptr, *v = nullptr, *rise = nullptr, *turn = nullptr;
    const float *fibres = nullptr, *contrast = nullptr, *mix0 = nullptr, *mix1 = nullptr, *drink = nullptr,
                *curl = nullptr;
    const float *large = nullptr, *small = nullptr, *speck = nullptr;  // null: none
    float u_middle = 0;
};

struct PixelOut {
    float *shade, *uptake, *rise, *turn, *pore;
};

void draw_pixels(base::Isa isa, const PixelTables& tables, const PixelRow& row, const PixelOut& out, int count);

/// Adds the values of the cubics over lattice columns from k0 on, at count places first, first + pace, …
void add_cubics(base::Isa isa, float* out, int count, double first, double pace, const double* columns,
                std::int64_t k0);
/// Adds a + t (b − a).
void add_between(base::Isa isa, float* out, const float* a, const float* b, float t, int count);
/// Adds √((base − drift)² + v²), but leaves nothing below 0.01.
void add_distance(base::Isa isa, float* out, const float* drift, const float* v, float base, int count);
/// Adds a groove's share of `count` pixels of one row.
void add_groove(base::Isa isa, float* cover, int count, float from, float half, float end, float half_width, float row,
                float slope);
/// Shades moved by `add` and kept in low … high, uptakes times `per` and kept in 0.05 … 8.
void finish_pixels(base::Isa isa, float* shade, float* uptake, int count, float add, float per, float low, float high);

}  // namespace foretone::grain
