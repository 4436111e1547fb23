#pragma once
// The OpenEXR container, written by TinyEXR.

#include <cstdint>
#include <string>
#include <vector>

namespace foretone::format {

/// An attribute as it stands in the file: little-endian bytes.
struct PackedAttribute {
    std::string name, type;
    std::vector<std::uint8_t> bytes;
};

struct PackedChannel {
    std::string name;
    const float* values;
};

/// Channels in the order given. Throws std::runtime_error with the writer's own words if it fails.
std::vector<std::uint8_t> pack_exr(int width, int height, const std::vector<PackedChannel>& channels, bool half,
                                   const std::vector<PackedAttribute>& attributes);

}  // namespace foretone::format
