#pragma once
// What a TOML file is checked for before and after it is parsed, so that no file can take the stack, minutes, or a
// reader's terminal.

#include <string>
#include <string_view>

#ifndef TOML_ENABLE_FORMATTERS
#define TOML_ENABLE_FORMATTERS 0
#endif
#include <toml++/toml.h>

namespace foretone::scene {

inline constexpr int deepest_toml = 32;                   ///< brackets within brackets, and parts of a dotted key
inline constexpr std::size_t longest_toml_name = 300;     ///< characters of a key, a name or a title
inline constexpr std::size_t longest_toml_text = 20'000;  ///< characters of any other text

/// Before parsing: the parser goes down by recursion. Throws InputError toml-depth at the place.
void require_shallow(std::string_view text, const std::string& file);

/// After it: no key or text holds control characters (text-control; line ends and tabs are let be, but in names), none
/// is endless (text-long). Throws InputError with the first ten found.
void require_plain(const toml::table& root, const std::string& file);

}  // namespace foretone::scene
