#pragma once
/// The bare PNG: signature, IHDR, IDAT, IEND.

#include <cstdint>
#include <vector>

#include "foretone/picture/image.hpp"

namespace foretone::picture {

std::vector<std::uint8_t> pack_png(const Image& image);

/// The same for pictures without flat fields: filtered rows, packed by all threads.
std::vector<std::uint8_t> pack_png_photograph(const Image& image);

}  // namespace foretone::picture
