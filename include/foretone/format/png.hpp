#pragma once
/// PNG bytes (ISO/IEC 15948) that say what their numbers mean: sRGB codes, and how large the picture is on paper.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/light/image.hpp"

namespace foretone::format {

struct PngOptions {
    double dpi = 150;         ///< pixels an inch, 1–10000; written as whole pixels a metre (pHYs)
    std::string title;        ///< UTF-8; empty: no chunk
    std::string description;  ///< UTF-8; empty: no chunk
    bool photograph = false;  ///< packed for wood and photographs, by all threads: larger, and many times faster; else
                              ///< for flat fields and text
};

/// The picture as a PNG file: IHDR, sRGB (perceptual), pHYs, who wrote it (Software), the texts (tEXt if Latin-1 holds
/// them, else iTXt), IDAT, IEND. Throws std::invalid_argument for an image whose size and bytes disagree, or a dpi out
/// of range.
std::vector<std::uint8_t> encode_png(const light::Image& image, const PngOptions& options = {});

}  // namespace foretone::format
