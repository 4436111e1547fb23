#include "zlib.h"

#include <array>
#include <cstdint>
#include <cstdlib>
#include <cstring>

#define STB_IMAGE_WRITE_STATIC
#define STBI_WRITE_NO_STDIO
#define STB_IMAGE_WRITE_IMPLEMENTATION
#include <stb_image_write.h>

uLong crc32(uLong crc, const Bytef* bytes, uInt size) {
    static const auto table = [] {
        std::array<std::uint32_t, 256> t{};
        for (std::uint32_t i = 0; i < 256; ++i) {
            std::uint32_t c = i;
            for (int k = 0; k < 8; ++k) c = (c & 1U) != 0 ? 0xEDB88320U ^ (c >> 1) : c >> 1;
            t[i] = c;
        }
        return t;
    }();
    std::uint32_t c = ~static_cast<std::uint32_t>(crc);
    for (uInt i = 0; i < size; ++i) c = table[(c ^ bytes[i]) & 255U] ^ (c >> 8);
    return ~c;
}

// stb's packer never falls back on stored blocks: at worst a byte takes nine bits.
uLong compressBound(uLong size) { return size + size / 8 + 64; }

int compress2(Bytef* out, uLongf* out_size, const Bytef* source, uLong size, int level) {
    int packed = 0;
    unsigned char* bytes =
        stbi_zlib_compress(const_cast<unsigned char*>(source), static_cast<int>(size), &packed, level < 5 ? 5 : level);
    if (bytes == nullptr || packed < 0 || static_cast<uLong>(packed) > *out_size) {
        std::free(bytes);
        return Z_BUF_ERROR;
    }
    std::memcpy(out, bytes, static_cast<std::size_t>(packed));
    *out_size = static_cast<uLongf>(packed);
    std::free(bytes);
    return Z_OK;
}
