#pragma once
/// A photograph in memory: linear light, 16 bits a channel.

#include <array>
#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace foretone::photo {

/// Something worth knowing about a picture; `id` never changes its meaning.
struct PhotoNote {
    std::string id, text;
};

/// A picture that cannot be used: `what()` says what was found and what would be right.
struct PhotoFault : std::runtime_error {
    PhotoFault(std::string fault_id, const std::string& text) : std::runtime_error(text), id(std::move(fault_id)) {}
    std::string id;
};

/// Rows X, Y, Z; columns red, green, blue.
using ToXyz = std::array<std::array<double, 3>, 3>;

/// Linear sRGB (IEC 61966-2-1) to XYZ under its own D65 white, on the scale Y = 1.
ToXyz srgb_to_xyz_matrix();

/// Rows from the top, pixels from the left, three values each, proportional to light: 65535 is the most the file can
/// say.
struct Pixels {
    int width = 0, height = 0;
    std::vector<std::uint16_t> rgb;       ///< size 3 · width · height
    ToXyz to_xyz = srgb_to_xyz_matrix();  ///< `rgb`/65535 times this is XYZ under D65, white at Y = 1
};

/// Pixels of plain sRGB codes (three bytes each, or four with an alpha that is left out), as a browser's canvas hands
/// them out. Throws std::invalid_argument unless `count` is width · height · channels and channels is 3 or 4.
Pixels pixels_of_srgb(int width, int height, int channels, const std::uint8_t* codes, std::size_t count);

}  // namespace foretone::photo
