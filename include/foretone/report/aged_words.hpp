#pragma once
/// What light and time make of a finish, in words without figures.

#include <string>

#include "foretone/job/aged.hpp"

namespace foretone::report {

/// How far such pieces may differ under a light: "boards may differ plainly".
std::string aged_spread_words(const job::SeenAge& aged, std::size_t light);

/// Which part of the change is wood, film and dye: "nearly all of it is the wood", "most of it is the dye, then the
/// wood". Parts may pull against each other; each is said by what it does alone.
std::string aged_parts_words(const job::AgedParts& parts);

}  // namespace foretone::report
