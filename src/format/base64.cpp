#include "base64.hpp"

namespace foretone::format {

std::string base64(std::span<const std::uint8_t> bytes) {
    constexpr char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    out.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t i = 0; i < bytes.size(); i += 3) {
        const std::size_t here = bytes.size() - i < 3 ? bytes.size() - i : 3;
        std::uint32_t bits = 0;
        for (std::size_t k = 0; k < 3; ++k) bits = bits << 8 | (k < here ? bytes[i + k] : 0u);
        for (std::size_t k = 0; k < 4; ++k) out += k <= here ? digits[bits >> (18 - 6 * k) & 63u] : '=';
    }
    return out;
}

}  // namespace foretone::format
