// The one EXIF entry that matters to a picture's pixels. A TIFF block: byte order, 42, offset of the first directory;
// there a count and entries of twelve bytes: tag, type, number of values, value.

#include <cstring>
#include <optional>

#include "foretone/photo/photo_file.hpp"

namespace foretone::photo {
namespace {

struct Reader {
    std::span<const std::uint8_t> bytes;
    bool little = false;

    std::optional<std::uint32_t> number(std::size_t at, std::size_t size) const {
        if (at > bytes.size() || bytes.size() - at < size) return std::nullopt;
        std::uint32_t v = 0;
        for (std::size_t i = 0; i < size; ++i) v = (v << 8) | bytes[at + (little ? size - 1 - i : i)];
        return v;
    }
};

}  // namespace

int exif_orientation(std::span<const std::uint8_t> tiff) {
    constexpr std::uint32_t orientation = 0x0112, short_type = 3;
    if (tiff.size() < 8) return 1;
    const bool little = tiff[0] == 'I' && tiff[1] == 'I';
    if (!little && !(tiff[0] == 'M' && tiff[1] == 'M')) return 1;
    const Reader read{tiff, little};
    const auto directory = read.number(4, 4);
    const auto entries = directory ? read.number(*directory, 2) : std::nullopt;
    if (read.number(2, 2) != 42 || !entries) return 1;
    for (std::uint32_t i = 0; i < *entries; ++i) {
        const std::size_t at = std::size_t(*directory) + 2 + 12 * std::size_t(i);
        const auto tag = read.number(at, 2);
        if (!tag) return 1;
        if (*tag != orientation) continue;
        const auto value = read.number(at + 8, 2);
        const bool valid = read.number(at + 2, 2) == short_type && value && *value >= 1 && *value <= 8;
        return valid ? static_cast<int>(*value) : 1;
    }
    return 1;
}

}  // namespace foretone::photo
