#include "support/pictures/photo_maker.hpp"

#include <png.h>
#include <zlib.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <stdexcept>
#include <string_view>

#include <jpeglib.h>

namespace foretone::test {
namespace {

void add_u32(Bytes& out, std::uint32_t v) {
    for (int shift = 24; shift >= 0; shift -= 8) out.push_back(std::uint8_t(v >> shift & 0xFF));
}

void append(Bytes& out, const void* from, std::size_t size) {
    const auto* const bytes = static_cast<const std::uint8_t*>(from);
    for (std::size_t i = 0; i < size; ++i) out.push_back(bytes[i]);
}

[[noreturn]] void fail_jpeg(j_common_ptr common) {
    char text[JMSG_LENGTH_MAX];
    common->err->format_message(common, text);
    throw std::runtime_error(std::string("libjpeg: ") + text);
}

[[noreturn]] void fail_png(png_structp, png_const_charp text) {
    throw std::runtime_error(std::string("libpng: ") + text);
}

void collect(png_structp png, png_bytep data, std::size_t size) {
    append(*static_cast<Bytes*>(png_get_io_ptr(png)), data, size);
}

// A legal script: first all constants, then each channel's other coefficients one band at a time.
std::vector<jpeg_scan_info> script(int scans) {
    std::vector<jpeg_scan_info> out;
    out.push_back({3, {0, 1, 2, 0}, 0, 0, 0, 0});
    for (int c = 0; c < 3; ++c) {
        for (int k = 1; k < 64 && int(out.size()) < scans; ++k) out.push_back({1, {c, 0, 0, 0}, k, k, 0, 0});
    }
    return out;
}

}  // namespace

Codes example(int width, int height, int channels, int bits) {
    Codes out{width, height, channels, bits, std::vector<std::uint16_t>(std::size_t(width * height * channels))};
    const double most = bits == 16 ? 65535 : 255;
    for (int y = 0; y < height; ++y) {
        for (int x = 0; x < width; ++x) {
            const double u = double(x) / width, v = double(y) / height;
            const double level[4] = {0.15 + 0.7 * u, 0.2 + 0.6 * v, 0.5 - 0.3 * u * v, 1.0};
            for (int c = 0; c < channels; ++c) {
                const bool alpha = (channels == 2 || channels == 4) && c + 1 == channels;
                out.at(x, y, c) = std::uint16_t(std::lround(most * (alpha ? 1.0 : level[c])));
            }
        }
    }
    return out;
}

Bytes exif_block(int orientation, bool little) {
    Bytes out = little ? Bytes{'I', 'I', 42, 0, 8, 0, 0, 0} : Bytes{'M', 'M', 0, 42, 0, 0, 0, 8};
    const auto put = [&](std::uint32_t v, int size) {
        for (int i = 0; i < size; ++i) out.push_back(std::uint8_t(v >> 8 * (little ? i : size - 1 - i) & 0xFF));
    };
    put(2, 2);
    put(0x0100, 2), put(4, 2), put(1, 4), put(99, 4);  // another entry first: ImageWidth
    put(0x0112, 2), put(3, 2), put(1, 4), put(std::uint32_t(orientation), 2), put(0, 2);
    put(0, 4);
    return out;
}

Bytes jpeg_of(const Codes& codes, const JpegForm& form) {
    jpeg_compress_struct c{};
    jpeg_error_mgr errors{};
    c.err = jpeg_std_error(&errors);
    errors.error_exit = fail_jpeg;
    jpeg_create_compress(&c);
    unsigned char* bytes = nullptr;
    unsigned long size = 0;
    jpeg_mem_dest(&c, &bytes, &size);
    c.image_width = JDIMENSION(codes.width);
    c.image_height = JDIMENSION(codes.height);
    c.input_components = codes.channels;
    c.in_color_space = form.cmyk ? JCS_CMYK : codes.channels == 1 ? JCS_GRAYSCALE : JCS_RGB;
    jpeg_set_defaults(&c);
    jpeg_set_quality(&c, form.quality, TRUE);
    if (form.full_color) c.comp_info[0].h_samp_factor = c.comp_info[0].v_samp_factor = 1;
    const auto own = script(form.scans);
    if (form.progressive) jpeg_simple_progression(&c);
    if (form.scans > 0) {
        c.scan_info = own.data();
        c.num_scans = int(own.size());
    }
    jpeg_start_compress(&c, TRUE);
    if (form.orientation > 0) {
        Bytes block{'E', 'x', 'i', 'f', 0, 0};
        const Bytes tiff = exif_block(form.orientation, form.orientation % 2 == 0);
        append(block, tiff.data(), tiff.size());
        jpeg_write_marker(&c, JPEG_APP0 + 1, block.data(), unsigned(block.size()));
    }
    if (!form.profile.empty()) jpeg_write_icc_profile(&c, form.profile.data(), unsigned(form.profile.size()));
    std::vector<JSAMPLE> row(std::size_t(codes.width * codes.channels));
    for (int y = 0; y < codes.height; ++y) {
        for (std::size_t i = 0; i < row.size(); ++i) row[i] = JSAMPLE(codes.values[std::size_t(y) * row.size() + i]);
        JSAMPROW rows[1] = {row.data()};
        jpeg_write_scanlines(&c, rows, 1);
    }
    jpeg_finish_compress(&c);
    jpeg_destroy_compress(&c);
    Bytes out(bytes, bytes + size);
    std::free(bytes);
    return out;
}

Bytes png_of(const Codes& codes, const PngForm& form) {
    Bytes out;
    png_structp png = png_create_write_struct(PNG_LIBPNG_VER_STRING, nullptr, fail_png, nullptr);
    png_infop info = png_create_info_struct(png);
    png_set_write_fn(png, &out, collect, nullptr);
    constexpr int kinds[] = {0, PNG_COLOR_TYPE_GRAY, PNG_COLOR_TYPE_GRAY_ALPHA, PNG_COLOR_TYPE_RGB,
                             PNG_COLOR_TYPE_RGB_ALPHA};
    const int kind = form.palette ? PNG_COLOR_TYPE_PALETTE : kinds[codes.channels];
    png_set_IHDR(png, info, png_uint_32(codes.width), png_uint_32(codes.height), codes.bits, kind,
                 form.interlaced ? PNG_INTERLACE_ADAM7 : PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    if (form.srgb) png_set_sRGB(png, info, PNG_sRGB_INTENT_PERCEPTUAL);
    if (form.gamma > 0) png_set_gAMA(png, info, form.gamma);
    if (!form.profile.empty())
        png_set_iCCP(png, info, "profile", PNG_COMPRESSION_TYPE_BASE, form.profile.data(),
                     png_uint_32(form.profile.size()));
    if (form.orientation > 0) {
        Bytes block = exif_block(form.orientation, form.orientation % 2 == 0);
        png_set_eXIf_1(png, info, png_uint_32(block.size()), block.data());
    }
    std::map<std::uint32_t, png_byte> index;
    std::vector<png_color> palette;
    if (form.palette) {
        for (std::size_t i = 0; i < codes.values.size(); i += 3) {
            const auto* v = &codes.values[i];
            if (!index.emplace(v[0] << 16 | v[1] << 8 | v[2], png_byte(palette.size())).second) continue;
            palette.push_back({png_byte(v[0]), png_byte(v[1]), png_byte(v[2])});
        }
        png_set_PLTE(png, info, palette.data(), int(palette.size()));
    }
    png_write_info(png, info);
    const std::size_t samples = std::size_t(codes.width * codes.channels);
    std::vector<Bytes> rows;
    for (std::size_t y = 0; y < std::size_t(codes.height); ++y) {
        Bytes row;
        const auto* v = &codes.values[y * samples];
        for (std::size_t i = 0; i < samples; i += form.palette ? 3 : 1) {
            if (codes.bits == 16) row.push_back(png_byte(v[i] >> 8));
            row.push_back(form.palette ? index.at(v[i] << 16 | v[i + 1] << 8 | v[i + 2]) : png_byte(v[i] & 0xFF));
        }
        rows.push_back(std::move(row));
    }
    std::vector<png_bytep> pointers;
    for (auto& r : rows) pointers.push_back(r.data());
    png_write_image(png, pointers.data());
    png_write_end(png, info);
    png_destroy_write_struct(&png, &info);
    return out;
}

Bytes png_chunk(const std::string& type, const Bytes& data) {
    Bytes out;
    add_u32(out, std::uint32_t(data.size()));
    append(out, type.data(), type.size());
    append(out, data.data(), data.size());
    add_u32(out, std::uint32_t(crc32(0, out.data() + 4, uInt(out.size() - 4))));
    return out;
}

Bytes png_that_says(std::uint32_t width, std::uint32_t height) {
    Bytes out{0x89, 'P', 'N', 'G', '\r', '\n', 0x1A, '\n'}, head;
    add_u32(head, width);
    add_u32(head, height);
    append(head, "\x08\x02\0\0\0", 5);
    const Bytes little(64, 0);
    Bytes packed(compressBound(64));
    uLongf size = packed.size();
    compress(packed.data(), &size, little.data(), 64);
    packed.resize(size);
    const Bytes chunks[] = {png_chunk("IHDR", head), png_chunk("IDAT", packed), png_chunk("IEND", {})};
    for (const auto& chunk : chunks) append(out, chunk.data(), chunk.size());
    return out;
}

}  // namespace foretone::test
