#pragma once
/// UTF-8 read one code point at a time; what is not UTF-8 reads as U+FFFD, one a byte.

#include <cstddef>
#include <string_view>
#include <vector>

namespace foretone::base {

/// The code point that begins at `at` (< text.size()); moves `at` past it. Overlong forms, surrogates and cut ends are
/// U+FFFD.
inline char32_t next_code_point(std::string_view text, std::size_t& at) {
    constexpr char32_t bad = 0xFFFD;
    const auto byte = [&](std::size_t i) { return char32_t(static_cast<unsigned char>(text[i])); };
    const char32_t lead = byte(at++);
    if (lead < 0x80) {
        return lead;
    }
    const std::size_t more = lead >= 0xF8 ? 0 : lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : lead >= 0xC0 ? 1 : 0;
    if (more == 0 || at + more > text.size()) {
        return bad;
    }
    char32_t point = lead & (0x3Fu >> more);
    for (std::size_t i = 0; i < more; ++i) {
        if ((byte(at + i) & 0xC0) != 0x80) {
            return bad;
        }
        point = (point << 6) | (byte(at + i) & 0x3F);
    }
    constexpr char32_t least[] = {0, 0x80, 0x800, 0x10000};
    if (point < least[more] || point > 0x10FFFF || (point >= 0xD800 && point < 0xE000)) {
        return bad;
    }
    at += more;
    return point;
}

/// Moves a cursor, colors a terminal or turns the direction of writing, and shows nothing itself: the controls of
/// ASCII and Latin-1, line and paragraph separators, embeddings and overrides of direction.
constexpr bool is_control(char32_t p) {
    return p < 0x20 || (p >= 0x7F && p < 0xA0) || p == 0x2028 || p == 0x2029 || (p >= 0x202A && p <= 0x202E) ||
           (p >= 0x2066 && p <= 0x2069);
}

inline bool has_control(std::string_view text) {
    for (std::size_t at = 0; at < text.size();)
        if (is_control(next_code_point(text, at))) return true;
    return false;
}

inline std::vector<char32_t> code_points(std::string_view text) {
    std::vector<char32_t> points;
    for (std::size_t at = 0; at < text.size();) {
        points.push_back(next_code_point(text, at));
    }
    return points;
}

}  // namespace foretone::base
