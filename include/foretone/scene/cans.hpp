#pragma once
/// What a can's label says beside the figures that its color is worked out from.

#include <map>
#include <optional>
#include <string>

namespace foretone::scene {

struct Can {
    std::optional<double> pot_life_h;   ///< hours that what is mixed with it stays usable
    std::optional<double> voc_g_per_l;  ///< volatile organic compounds
};

using Cans = std::map<std::string, Can>;  ///< by material

}  // namespace foretone::scene
