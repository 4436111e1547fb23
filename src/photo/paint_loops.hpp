#pragma once
// The loops over a row's pixels that are wood and nothing else, for the widest instruction set there is; the same bytes
// for every one. photo_paint.cpp has the same one pixel at a time, for those at an edge.

#include <array>
#include <cstddef>
#include <cstdint>

#include "foretone/base/isa.hpp"

namespace foretone::photo {

/// Four floats that are looked up, and moved, together.
using Four [[gnu::vector_size(16)]] = float;

/// What a row of pixels is worked out with. Matrices by rows; tables of four floats an entry.
struct PaintTables {
    std::array<float, 9> to_xyz{};                  // 16-bit values of the file to XYZ, Y = 1
    std::array<float, 9> to_cones{}, from_cones{};  // XYZ to cone responses and back
    std::array<float, 9> to_linear{};               // XYZ, Y = 100, to linear sRGB
    const std::uint8_t* codes = nullptr;            // of linear light, `code_entries` of them from 0 to 1
    std::size_t code_entries = 0;
    float code_edge = 0;  // light this near 0 or 1 is for `light::Screen` to judge

    // Over luminance: px, pz, gx, gz and shade, above, 0, 0 of each entry.
    const float* curve = nullptr;
    const float *tones = nullptr, *second_tones = nullptr, *second_bare = nullptr;  // null: no finish, no second lamp
    std::array<float, 3> usual{1, 1, 1};  // bare wood in cones under the second lamp over that under the first

    // Uptake of a spot by its ring and detail: the four corners of each cell.
    const float* figure = nullptr;
    int figure_columns = 0;
    float ring_low = 0, per_ring = 1, ring_last = 0, detail_low = 0, per_detail = 1, detail_last = 0;
    float ring_scale = 1, detail_scale = 1, middle_shade = 0, ln_mean = 0;
};

/// What a row has of its own, at every column of blocks: ring, blotch, 0, 0; and the lamps (PhotoBoard::lamps_row),
/// null in even light.
struct PaintRow {
    const std::uint16_t* rgb = nullptr;     // from the first pixel of the row
    const std::uint32_t* column = nullptr;  // of each pixel: the block column left of it,
    const float* share = nullptr;           // and how far it lies towards the next
    const float *figure = nullptr, *lamps = nullptr;
};

inline constexpr int paint_block = 128;  // pixels that are worked out at a time

/// Of up to `paint_block` pixels.
struct Painted {
    alignas(64) std::array<float, paint_block> x, y, z;  // as it is shown, Y = 1
    std::array<double, 3> sum;                           // over those not brighter than wood: in the light at the card
    int counted;                                         // of these
};

/// The pixels first … first + count − 1, all of them wood.
void paint_wood(base::Isa isa, const PaintTables& tables, const PaintRow& row, int first, int count, Painted& out);
/// The same pixels as they are: nothing but their colors.
void paint_rest(base::Isa isa, const PaintTables& tables, const PaintRow& row, int first, int count, Painted& out);
/// Their codes; true if any pixel is for `light::Screen` to judge, `judge` 1 for those.
bool encode_painted(base::Isa isa, const PaintTables& tables, const Painted& from, int count, std::uint8_t* codes,
                    std::uint8_t* judge);

}  // namespace foretone::photo
