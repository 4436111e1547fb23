#pragma once
/// 8-bit sRGB pixels in memory.

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace foretone::picture {

/// An sRGB color, 8 bits a channel: red, green, blue.
using Code = std::array<std::uint8_t, 3>;

/// Rows from the top, pixels from the left, three bytes each: rgb.size() = 3 · width · height.
struct Image {
    int width = 0;                  ///< pixels, ≥ 1
    int height = 0;                 ///< pixels, ≥ 1
    std::vector<std::uint8_t> rgb;  ///< sRGB codes

    /// All pixels of one color. Throws std::invalid_argument unless both sides are 1–20000 pixels.
    static Image filled(int width, int height, const Code& code);

    /// The pixel at column `x`, row `y`; both must lie inside.
    Code at(int x, int y) const;
};

}  // namespace foretone::picture
