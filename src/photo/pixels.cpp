#include "foretone/photo/pixels.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/color/srgb.hpp"

namespace foretone::photo {

ToXyz srgb_to_xyz_matrix() {
    ToXyz m{};
    for (std::size_t c = 0; c < 3; ++c) {
        std::array<double, 3> primary{};
        primary[c] = 1;
        const auto v = color::srgb_to_xyz(primary);
        m[0][c] = v.x / 100;
        m[1][c] = v.y / 100;
        m[2][c] = v.z / 100;
    }
    return m;
}

Pixels pixels_of_srgb(int width, int height, int channels, const std::uint8_t* codes, std::size_t count) {
    const bool sides = width > 0 && height > 0 && (channels == 3 || channels == 4);
    if (!sides || count != std::size_t(width) * std::size_t(height) * std::size_t(channels)) {
        throw std::invalid_argument("photo::pixels_of_srgb: " + std::to_string(width) + " by " +
                                    std::to_string(height) + " pixels of " + std::to_string(channels) +
                                    " channels do not go with " + std::to_string(count) + " bytes");
    }
    std::array<std::uint16_t, 256> linear{};
    for (std::size_t i = 0; i < 256; ++i) {
        linear[i] = static_cast<std::uint16_t>(std::lround(65535 * color::srgb_decode(double(i) / 255)));
    }
    Pixels out;
    out.width = width;
    out.height = height;
    out.rgb.resize(3 * std::size_t(width) * std::size_t(height));
    const auto step = std::size_t(channels);
    for (std::size_t i = 0, o = 0; i < count; i += step, o += 3) {
        for (std::size_t c = 0; c < 3; ++c) out.rgb[o + c] = linear[codes[i + c]];
    }
    return out;
}

}  // namespace foretone::photo
