#pragma once
/// Picture files of every kind, written by libjpeg and libpng, for the reader of photographs to be tried on.

#include <cstdint>
#include <string>
#include <vector>

namespace foretone::test {

using Bytes = std::vector<std::uint8_t>;

/// Codes of a picture: `channels` a pixel (1 grey, 2 grey and alpha, 3 RGB, 4 RGB and alpha or CMYK), 8 or 16 bits.
struct Codes {
    int width = 0, height = 0, channels = 3, bits = 8;
    std::vector<std::uint16_t> values;

    std::uint16_t& at(int x, int y, int c) {
        return values[(std::size_t(y) * std::size_t(width) + std::size_t(x)) * std::size_t(channels) + std::size_t(c)];
    }
    std::uint16_t at(int x, int y, int c) const { return const_cast<Codes*>(this)->at(x, y, c); }
};

/// A soft scene of patches and slopes, seeded by nothing.
Codes example(int width, int height, int channels = 3, int bits = 8);

struct JpegForm {
    int quality = 95;
    bool full_color = true;  ///< 4:4:4; else 4:2:0
    bool progressive = false;
    int scans = 0;  ///< > 0: that many passes, most of them of no use
    bool cmyk = false;
    int orientation = 0;  ///< > 0: an EXIF block says so
    Bytes profile = {};
};
Bytes jpeg_of(const Codes& codes, const JpegForm& form = {});

struct PngForm {
    bool interlaced = false, srgb = false;
    double gamma = 0;      ///< > 0: written
    int orientation = 0;   ///< > 0: an eXIf chunk says so
    bool palette = false;  ///< the picture has at most 256 colors
    Bytes profile = {};
};
Bytes png_of(const Codes& codes, const PngForm& form = {});

/// A TIFF block with an orientation, in either byte order.
Bytes exif_block(int orientation, bool little);

/// A chunk with its check sum.
Bytes png_chunk(const std::string& type, const Bytes& data);

/// A PNG whose header says `width` × `height` and that holds next to nothing.
Bytes png_that_says(std::uint32_t width, std::uint32_t height);

}  // namespace foretone::test
