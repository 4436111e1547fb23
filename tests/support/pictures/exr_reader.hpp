#pragma once
/// Reads OpenEXR bytes with the OpenEXR library, which shares no code with what writes them.

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace foretone::test {

struct ExrFile {
    int width = 0, height = 0;
    bool zip = false, complete = false;
    std::vector<std::string> order;                      ///< channel names as they lie in the file
    std::map<std::string, bool> half;                    ///< by channel: stored with 16 bits
    std::map<std::string, std::vector<float>> channels;  ///< rows from the top
    std::map<std::string, std::string> texts;            ///< attributes of type string
    std::map<std::string, std::vector<float>> numbers;   ///< attributes of type float, v2f and chromaticities
};

/// Throws what the library throws for bytes it refuses.
ExrFile read_exr(const std::vector<std::uint8_t>& bytes);

}  // namespace foretone::test
