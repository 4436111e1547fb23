#pragma once
/// What is wrong in a line of TOML, in the words of somebody who wrote it.

#include <string>
#include <string_view>

namespace foretone::scene {

/// What to mend at `line`:`column` (from 1) of `text`. `found` is what the parser says of it.
std::string toml_words(std::string_view text, std::size_t line, std::size_t column, std::string_view found);

}  // namespace foretone::scene
