#include "exr_pack.hpp"

#include <zlib.h>

#include <cstdlib>
#include <memory>
#include <stdexcept>

#define TINYEXR_USE_MINIZ 0
#define TINYEXR_USE_PIZ 0
#define TINYEXR_USE_OPENMP 0
#ifndef __EMSCRIPTEN__
#define TINYEXR_USE_THREAD 1  // blocks of lines are packed side by side: the same bytes for any number of threads
#endif
#define TINYEXR_IMPLEMENTATION
#include <tinyexr.h>

namespace foretone::format {
namespace {

// Names have room for 255 bytes and an ending 0.
void put_name(char (&to)[256], const std::string& name) { to[name.copy(to, 255)] = '\0'; }

}  // namespace

std::vector<std::uint8_t> pack_exr(int width, int height, const std::vector<PackedChannel>& channels, bool half,
                                   const std::vector<PackedAttribute>& attributes) {
    const std::size_t count = channels.size();
    std::vector<EXRChannelInfo> infos(count);
    std::vector<int> given(count, TINYEXR_PIXELTYPE_FLOAT);
    std::vector<int> wanted(count, half ? TINYEXR_PIXELTYPE_HALF : TINYEXR_PIXELTYPE_FLOAT);
    std::vector<unsigned char*> planes(count);
    for (std::size_t i = 0; i < count; ++i) {
        infos[i] = {};
        put_name(infos[i].name, channels[i].name);
        // The writer only reads; its interface knows no const.
        planes[i] = reinterpret_cast<unsigned char*>(const_cast<float*>(channels[i].values));
    }
    std::vector<EXRAttribute> extra(attributes.size());
    for (std::size_t i = 0; i < extra.size(); ++i) {
        put_name(extra[i].name, attributes[i].name);
        put_name(extra[i].type, attributes[i].type);
        extra[i].value = const_cast<unsigned char*>(attributes[i].bytes.data());
        extra[i].size = static_cast<int>(attributes[i].bytes.size());
    }

    EXRHeader header;
    InitEXRHeader(&header);
    header.num_channels = static_cast<int>(count);
    header.channels = infos.data();
    header.pixel_types = given.data();
    header.requested_pixel_types = wanted.data();
    header.compression_type = TINYEXR_COMPRESSIONTYPE_ZIP;
    header.num_custom_attributes = static_cast<int>(extra.size());
    header.custom_attributes = extra.data();
    EXRImage image;
    InitEXRImage(&image);
    image.num_channels = static_cast<int>(count);
    image.images = planes.data();
    image.width = width;
    image.height = height;

    unsigned char* bytes = nullptr;
    const char* words = nullptr;
    const std::size_t size = SaveEXRImageToMemory(&image, &header, &bytes, &words);
    const std::unique_ptr<unsigned char, decltype(&std::free)> owned(bytes, &std::free);
    if (size == 0) {
        const std::string text = words ? words : "no reason given";
        FreeEXRErrorMessage(words);
        throw std::runtime_error("format::encode_exr: " + text);
    }
    return {bytes, bytes + size};
}

}  // namespace foretone::format
