#include "foretone/light/image.hpp"

#include <stdexcept>
#include <string>

namespace foretone::light {

Image Image::filled(int width, int height, const Code& code) {
    constexpr int largest = 20000;
    if (width < 1 || height < 1 || width > largest || height > largest) {
        throw std::invalid_argument("light::Image: sides must be 1 to " + std::to_string(largest) + " pixels, got " +
                                    std::to_string(width) + " by " + std::to_string(height));
    }
    Image image{width, height, {}};
    std::vector<std::uint8_t> row;
    for (int x = 0; x < width; ++x) {
        row.insert(row.end(), code.begin(), code.end());
    }
    image.rgb.reserve(row.size() * std::size_t(height));
    for (int y = 0; y < height; ++y) {
        image.rgb.insert(image.rgb.end(), row.begin(), row.end());
    }
    return image;
}

Code Image::at(int x, int y) const {
    const std::size_t i = 3 * (std::size_t(y) * std::size_t(width) + std::size_t(x));
    return {rgb.at(i), rgb.at(i + 1), rgb.at(i + 2)};
}

}  // namespace foretone::light
