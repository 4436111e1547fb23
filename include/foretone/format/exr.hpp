#pragma once
/// OpenEXR bytes: named float channels, and what a program must know to read them right.

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

namespace foretone::format {

/// How a number is stored: 16 bits (11 significant, up to 65504) or 32 bits (exactly as given).
enum class Precision { half, full };

/// One channel, rows from the top, pixels from the left.
struct ExrChannel {
    std::string name;           ///< 1–31 bytes
    std::vector<float> values;  ///< width · height, finite
};

/// Where a color lies: CIE x and y.
struct Chromaticity {
    double x = 0, y = 0;
};

/// What stands in the head of the file beside the pixels. Empty texts are left out.
struct ExrHead {
    double dpi = 150;            ///< pixels an inch (`xDensity`), 1–10000
    std::string title, light;    ///< attributes of these names
    std::string comments;        ///< the standard attribute of this name
    double white_cd_per_m2 = 0;  ///< luminance of red = green = blue = 1 (`whiteLuminance`); 0: left out
    std::vector<std::pair<std::string, std::string>> texts;  ///< further attributes: name (1–31 bytes), text
};

/// The channels as one scan-line OpenEXR part, zip-compressed, sorted by name as readers expect. With channels R, G and
/// B the head states sRGB primaries and white (`chromaticities`) and that the white is what should look neutral
/// (`adoptedNeutral`). Throws std::invalid_argument, naming the channel or attribute and its value: sides not 1–20000
/// pixels, no channel, a channel of the wrong length or with a value that is not finite or (half) beyond 65504, a name
/// used twice or of no allowed length.
std::vector<std::uint8_t> encode_exr(int width, int height, const std::vector<ExrChannel>& channels,
                                     Precision precision, const ExrHead& head);

/// Linear-light pixels with sRGB primaries: red, green, blue for each; 1 is the perfect diffuser, not clipped.
struct LinearImage {
    int width = 0, height = 0;
    std::vector<float> rgb;  ///< 3 · width · height
};

/// Red, green and blue of each pixel as channels R, G, B. Throws std::invalid_argument for a number of values that 3
/// does not divide.
std::vector<ExrChannel> rgb_channels(const std::vector<float>& rgb);

/// The picture as OpenEXR channels R, G, B. Throws as `encode_exr`.
std::vector<std::uint8_t> linear_exr(const LinearImage& image, Precision precision, const ExrHead& head);

}  // namespace foretone::format
