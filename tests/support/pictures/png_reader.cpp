#include "support/pictures/png_reader.hpp"

#include <png.h>
#include <zlib.h>

#include <cstring>
#include <stdexcept>

namespace foretone::test {
namespace {

struct Source {
    const std::vector<std::uint8_t>* bytes;
    std::size_t at;
};

void give(png_structp png, png_bytep out, std::size_t count) {
    auto* source = static_cast<Source*>(png_get_io_ptr(png));
    if (source->at + count > source->bytes->size()) {
        png_error(png, "the file ends early");
    }
    std::memcpy(out, source->bytes->data() + source->at, count);
    source->at += count;
}

[[noreturn]] void fail(png_structp, png_const_charp text) { throw std::runtime_error(std::string("libpng: ") + text); }

void complain(png_structp png, png_const_charp text) {
    static_cast<PngContent*>(png_get_error_ptr(png))->complaints.emplace_back(text);
}

std::uint32_t u32(const std::uint8_t* p) {
    return std::uint32_t(p[0]) << 24 | std::uint32_t(p[1]) << 16 | std::uint32_t(p[2]) << 8 | p[3];
}

}  // namespace

std::vector<Chunk> chunks_of(const std::vector<std::uint8_t>& png) {
    std::vector<Chunk> chunks;
    for (std::size_t at = 8; at < png.size();) {
        if (at + 12 > png.size() || at + 12 + u32(&png[at]) > png.size()) {
            throw std::runtime_error("a chunk runs past the end of the file");
        }
        const std::uint32_t size = u32(&png[at]);
        const auto body = png.begin() + std::ptrdiff_t(at) + 4;
        const auto crc = std::uint32_t(::crc32(0, &*body, size + 4));
        chunks.push_back({{body, body + 4}, {body + 4, body + 4 + size}, crc == u32(&png[at + 8 + size])});
        at += 12 + size;
    }
    return chunks;
}

PngContent read_png(const std::vector<std::uint8_t>& bytes) {
    PngContent out;
    Source source{&bytes, 0};
    png_structp png = png_create_read_struct(PNG_LIBPNG_VER_STRING, &out, fail, complain);
    png_infop info = png_create_info_struct(png);
    try {
        png_set_read_fn(png, &source, give);
        png_read_info(png, info);
        if (png_get_bit_depth(png, info) != 8 || png_get_color_type(png, info) != PNG_COLOR_TYPE_RGB) {
            throw std::runtime_error("not 8-bit RGB");
        }
        out.image.width = int(png_get_image_width(png, info));
        out.image.height = int(png_get_image_height(png, info));
        const std::size_t stride = png_get_rowbytes(png, info);
        out.image.rgb.resize(stride * std::size_t(out.image.height));
        for (int y = 0; y < out.image.height; ++y) {
            png_read_row(png, out.image.rgb.data() + stride * std::size_t(y), nullptr);
        }
        png_read_end(png, info);
        int unit = 0;
        png_get_sRGB(png, info, &out.srgb_intent);
        png_get_pHYs(png, info, &out.x_per_unit, &out.y_per_unit, &unit);
        out.unit_is_metre = unit == PNG_RESOLUTION_METER;
        png_textp texts = nullptr;
        const int count = png_get_text(png, info, &texts, nullptr);
        for (int i = 0; i < count; ++i) {
            out.texts.emplace_back(texts[i].key, texts[i].text);
        }
    } catch (...) {
        png_destroy_read_struct(&png, &info, nullptr);
        throw;
    }
    png_destroy_read_struct(&png, &info, nullptr);
    return out;
}

}  // namespace foretone::test
