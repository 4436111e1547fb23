// The pixels are packed by stb_image_write, which writes signature, IHDR, IDAT and IEND. The chunks it leaves out are
// inserted after IHDR: without sRGB a viewer may take the codes for anything, and without pHYs a swatch has no size on
// paper.

#include "foretone/format/png.hpp"

#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <string_view>

#include "png_pack.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/utf8.hpp"

namespace foretone::format {
namespace {

using Bytes = std::vector<std::uint8_t>;

constexpr std::size_t end_of_header = 33;  // signature 8, IHDR 4 + 4 + 13 + 4

void put_u32(Bytes& out, std::uint32_t v) {
    for (int shift = 24; shift >= 0; shift -= 8) {
        out.push_back(std::uint8_t((v >> shift) & 0xFFu));
    }
}

void put(Bytes& out, std::string_view text) { out.insert(out.end(), text.begin(), text.end()); }

void put_chunk(Bytes& out, std::string_view type, const Bytes& data) {
    put_u32(out, std::uint32_t(data.size()));
    const std::size_t begin = out.size();
    put(out, type);
    out.insert(out.end(), data.begin(), data.end());
    put_u32(out, std::uint32_t(crc32(0, out.data() + begin, uInt(out.size() - begin))));
}

/// tEXt holds Latin-1 only and no NUL; iTXt holds UTF-8, uncompressed here, without language or translated keyword.
void put_text(Bytes& out, std::string_view keyword, std::string_view text) {
    if (text.empty()) {
        return;
    }
    Bytes latin, unicode;
    put(latin, keyword);
    latin.push_back(0);
    put(unicode, keyword);
    unicode.insert(unicode.end(), 5, 0);  // keyword end, no compression, method 0, no language, no translated keyword
    bool fits = true;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t begin = at;
        const char32_t point = base::next_code_point(text, at);
        if (point == 0) {
            continue;
        }
        fits = fits && point < 0x100;
        latin.push_back(std::uint8_t(point & 0xFF));
        put(unicode, point == 0xFFFD ? std::string_view("\xEF\xBF\xBD") : text.substr(begin, at - begin));
    }
    fits ? put_chunk(out, "tEXt", latin) : put_chunk(out, "iTXt", unicode);
}

// What says what the codes mean, how large they are on paper, and what they show.
void put_meaning(Bytes& out, const PngOptions& options) {
    put_chunk(out, "sRGB", {0});  // rendering intent 0, perceptual
    const auto per_metre = std::uint32_t(std::lround(options.dpi / 0.0254));
    Bytes size;
    put_u32(size, per_metre);
    put_u32(size, per_metre);
    size.push_back(1);  // the unit is the metre
    put_chunk(out, "pHYs", size);
    put_text(out, "Software", "foretone");  // by this a file is known as one that may be written anew
    put_text(out, "Title", options.title);
    put_text(out, "Description", options.description);
}

void check_dpi(const PngOptions& options) {
    if (!(options.dpi >= 1 && options.dpi <= 10000)) {
        throw std::invalid_argument("format::encode_png: dpi must be 1 to 10000, got " + base::shortest(options.dpi));
    }
}

}  // namespace

std::vector<std::uint8_t> png_head(int width, int height, const PngOptions& options, std::uint64_t length) {
    check_dpi(options);
    if (width < 1 || height < 1 || length > 0x7fffffffU)
        throw std::invalid_argument("format::encode_png: no PNG has " + std::to_string(width) + " by " +
                                    std::to_string(height) + " pixels in " + std::to_string(length) + " bytes");
    Bytes out = {0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'}, header;
    put_u32(header, std::uint32_t(width));
    put_u32(header, std::uint32_t(height));
    header.insert(header.end(), {8, 2, 0, 0, 0});  // 8 bits, RGB
    put_chunk(out, "IHDR", header);
    put_meaning(out, options);
    put_u32(out, std::uint32_t(length));
    put(out, "IDAT");
    return out;
}

std::vector<std::uint8_t> encode_png(const light::Image& image, const PngOptions& options) {
    const std::size_t expected =
        std::size_t(3) * std::size_t(std::max(image.width, 0)) * std::size_t(std::max(image.height, 0));
    if (expected == 0 || image.rgb.size() != expected) {
        throw std::invalid_argument("format::encode_png: " + std::to_string(image.width) + " by " +
                                    std::to_string(image.height) + " pixels do not go with " +
                                    std::to_string(image.rgb.size()) + " bytes");
    }
    check_dpi(options);
    if (options.photograph) return encode_png_photograph(image, options);
    const Bytes packed = pack_png(image);
    Bytes out;
    out.reserve(packed.size() + 256 + options.title.size() + options.description.size());
    out.assign(packed.begin(), packed.begin() + end_of_header);
    put_meaning(out, options);
    out.insert(out.end(), packed.begin() + end_of_header, packed.end());
    return out;
}

}  // namespace foretone::format
