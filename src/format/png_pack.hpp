#pragma once
/// Parts of a PNG.

#include <cstdint>
#include <vector>

#include "foretone/format/png.hpp"

namespace foretone::format {

/// The bare PNG: signature, IHDR, IDAT, IEND.
std::vector<std::uint8_t> pack_png(const light::Image& image);

/// Signature, IHDR and every chunk before the pixels, and the head of the one chunk that holds these: `length` bytes.
std::vector<std::uint8_t> png_head(int width, int height, const PngOptions& options, std::uint64_t length);

/// encode_png for pictures without flat fields: filtered rows, packed by all threads.
std::vector<std::uint8_t> encode_png_photograph(const light::Image& image, const PngOptions& options);

}  // namespace foretone::format
