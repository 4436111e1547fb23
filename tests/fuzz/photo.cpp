#include <cstdint>

#include "foretone/picture/photo_file.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    foretone::picture::PhotoLimits limits;
    limits.megapixels = 0.25;
    limits.memory = std::size_t(16) << 20;
    try {
        foretone::picture::read_photo({data, size}, limits);
    } catch (const foretone::picture::PhotoFault&) {}
    return 0;
}
