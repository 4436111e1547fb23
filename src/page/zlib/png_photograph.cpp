// In the browser one packer does for every picture.
#include "png_pack.hpp"

namespace foretone::format {

std::vector<std::uint8_t> encode_png_photograph(const light::Image& image, const PngOptions& options) {
    PngOptions plain = options;
    plain.photograph = false;
    return encode_png(image, plain);
}

}  // namespace foretone::format
