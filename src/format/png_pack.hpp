#pragma once
/// The bare PNG: signature, IHDR, IDAT, IEND.

#include <cstdint>
#include <vector>

#include "foretone/light/image.hpp"

namespace foretone::format {

std::vector<std::uint8_t> pack_png(const light::Image& image);

/// The same for pictures without flat fields: filtered rows, packed by all threads.
std::vector<std::uint8_t> pack_png_photograph(const light::Image& image);

}  // namespace foretone::format
