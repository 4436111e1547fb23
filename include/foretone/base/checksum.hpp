#pragma once
/// A checksum of text that is the same on every machine.

#include <cstdint>
#include <string_view>

namespace foretone::base {

/// FNV-1a, 64 bits; `before` is that of what stands before `text`.
constexpr std::uint64_t fnv1a(std::string_view text, std::uint64_t before = 0xcbf29ce484222325u) {
    for (const char c : text) before = (before ^ static_cast<unsigned char>(c)) * 0x100000001b3u;
    return before;
}

}  // namespace foretone::base
