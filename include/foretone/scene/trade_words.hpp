#pragma once
/// What a shop calls a material, and the library's entries that a finisher means by it.

#include <string>
#include <string_view>
#include <vector>

namespace foretone::scene {

/// Ids of the library, the likeliest first; empty for a word that is not in the table. Case, hyphens and blanks do not
/// matter.
std::vector<std::string> meant_by(std::string_view word);

/// The library's light that people mean by "daylight" or "warm lamp"; empty for a word that is not in the table.
std::string light_meant_by(std::string_view word);

/// " By danish oil a shop mostly means oil-varnish-blend." for a word of the table, else as `suggestion`.
std::string material_suggestion(std::string_view read, const std::vector<std::string>& choices);

}  // namespace foretone::scene
