#include "png_pack.hpp"

#include <zlib.h>

#include <cstdlib>
#include <memory>
#include <new>

namespace {

// Of zlib: half the time of 5 on pages of flat fields and text, for a twentieth more bytes.
constexpr int level = 3;

/// The packer stb_image_write is given in place of its own, which is slow on large flat fields. It frees what it gets
/// with std::free.
unsigned char* pack(unsigned char* bytes, int count, int* packed_count, int) {
    uLongf size = compressBound(static_cast<uLong>(count));
    auto* const out = static_cast<unsigned char*>(std::malloc(size));
    if (out != nullptr && compress2(out, &size, bytes, static_cast<uLong>(count), level) != Z_OK) {
        std::free(out);
        return nullptr;
    }
    *packed_count = static_cast<int>(size);
    return out;
}

}  // namespace

#define STBIW_ZLIB_COMPRESS pack
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wunused-function"
#define STB_IMAGE_WRITE_STATIC
#define STBI_WRITE_NO_STDIO
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <stb_image_write.h>
#pragma GCC diagnostic pop

namespace foretone::format {
namespace {

// Set once, before anything runs: no row filter, which suits flat fields and text.
[[maybe_unused]] const int row_filter = stbi_write_force_png_filter = 0;

}  // namespace

std::vector<std::uint8_t> pack_png(const light::Image& image) {
    int size = 0;
    const std::unique_ptr<unsigned char, decltype(&std::free)> bytes(
        stbi_write_png_to_mem(image.rgb.data(), 3 * image.width, image.width, image.height, 3, &size), &std::free);
    if (!bytes || size <= 0) {
        throw std::bad_alloc();
    }
    return {bytes.get(), bytes.get() + size};
}

}  // namespace foretone::format
