#pragma once
/// Is a recipe held back by what was allowed?

#include <string>
#include <vector>

#include "foretone/search/space.hpp"

namespace foretone::search {

/// One limit that a recipe lies on, in words with the key to widen: "as strong a dye as allowed (water = 20): allow
/// less water". Told are the least and the most water, the most parts and the most dyes at once, the fewest and the
/// most coats, the weakest and the strongest cut, and the ends of a list of sheens: each only if the next step beyond
/// could be made (no less water than none, no fewer coats than one). A list of one value is a limit to both sides.
std::vector<std::string> on_the_edge(const Choices& choices, const Space& space, std::uint64_t number);

}  // namespace foretone::search
