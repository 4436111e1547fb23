#pragma once
/// Orders that papers print without figures, each met by the library or not.

#include <cmath>
#include <string>
#include <vector>

#include "foretone/scene/library.hpp"

namespace foretone::job {

struct Ranking {
    std::string claim;  ///< in words
    std::string source;
    bool met = false;
    std::string found;      ///< what the library says, figures included
    double chance = NAN;    ///< that the order holds, by the stated spreads; of its closest pair. NaN: not worked out
    std::string decides{};  ///< that pair, and which figures make the difference
};

/// All of them. Differences are ΔE*ab from bare wood, two coats as the material is usually put on, D65, 10°, the mean
/// of d/8 with and without the specular.
std::vector<Ranking> check_rankings(const scene::Library& library);

}  // namespace foretone::job
