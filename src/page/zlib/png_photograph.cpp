// In the browser one packer does for every picture.
#include "png_pack.hpp"

namespace foretone::format {

std::vector<std::uint8_t> pack_png_photograph(const Image& image) { return pack_png(image); }

}  // namespace foretone::format
