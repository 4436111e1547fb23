#pragma once
/// 8-bit sRGB pixels in memory.

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace foretone::light {

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

/// Whole pixels; covers columns x … x + width − 1 and rows y … y + height − 1.
struct Box {
    int x = 0, y = 0, width = 0, height = 0;
};

}  // namespace foretone::light
