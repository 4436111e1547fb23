#pragma once
/// The bare PNG: signature, IHDR, IDAT, IEND.

#include <cstdint>
#include <vector>

#include "foretone/picture/image.hpp"

namespace foretone::picture {

std::vector<std::uint8_t> pack_png(const Image& image);

}  // namespace foretone::picture
