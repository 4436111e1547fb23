#pragma once
/// Reads PNG bytes with libpng, which shares nothing with the writer.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/light/image.hpp"

namespace foretone::test {

struct Chunk {
    std::string type;
    std::vector<std::uint8_t> data;
    bool crc_right = false;  ///< by zlib's crc32
};

/// The chunks in file order; throws std::runtime_error if the bytes do not parse as a chain of chunks.
std::vector<Chunk> chunks_of(const std::vector<std::uint8_t>& png);

struct PngContent {
    light::Image image;
    int srgb_intent = -1;                          ///< −1: no sRGB chunk
    std::uint32_t x_per_unit = 0, y_per_unit = 0;  ///< of pHYs
    bool unit_is_metre = false;
    std::vector<std::pair<std::string, std::string>> texts;
    std::vector<std::string> complaints;  ///< warnings of libpng
};

/// All of the picture; throws std::runtime_error with libpng's words if it cannot be read.
PngContent read_png(const std::vector<std::uint8_t>& png);

}  // namespace foretone::test
