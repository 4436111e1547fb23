#include <cstdint>

#include "foretone/photo/chart.hpp"
#include "foretone/photo/photo_file.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using namespace foretone::photo;
    PhotoLimits limits;
    limits.megapixels = 0.25;
    limits.memory = std::size_t(16) << 20;
    try {
        const auto photo = read_photo({data, size}, limits);
        const double w = photo.pixels.width, h = photo.pixels.height;
        const double a = size > 0 ? data[size - 1] / 255.0 : 0, b = size > 1 ? data[size - 2] / 255.0 : 0;
        squared(photo.pixels, {Point2{a * w, b * h}, {w, 0}, {w - b * w / 2, h}, {0, h - a * h / 2}}, 0, 1);
        see_fields(photo.pixels, find_chart(photo.pixels));
    } catch (const PhotoFault&) {}
    return 0;
}
