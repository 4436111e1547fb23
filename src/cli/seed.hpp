#pragma once
/// Which piece of wood: the option --seed of the verbs that draw one.

#include <cstdint>
#include <string>

namespace foretone::cli {

/// The number in `text`, or the one that belongs to a scene's title if it is empty. Throws UsageError with `verb` for
/// anything but a whole number from 0 to 2^53 − 1, the largest that every reader of JSON keeps.
std::uint64_t seed_from(const std::string& verb, const std::string& text, const std::string& title);

}  // namespace foretone::cli
