#pragma once
// Bytes as text (RFC 4648, section 4).

#include <cstdint>
#include <span>
#include <string>

namespace foretone::format {

std::string base64(std::span<const std::uint8_t> bytes);

}  // namespace foretone::format
