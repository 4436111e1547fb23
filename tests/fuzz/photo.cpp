#include <cstdint>

#include "foretone/photo/photo_file.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    foretone::photo::PhotoLimits limits;
    limits.megapixels = 0.25;
    limits.memory = std::size_t(16) << 20;
    try {
        foretone::photo::read_photo({data, size}, limits);
    } catch (const foretone::photo::PhotoFault&) {}
    return 0;
}
