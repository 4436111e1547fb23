#pragma once
/// What things cost, as a scene says it.

#include <map>
#include <string>

namespace foretone::scene {

/// One pack on sale: so many mL or so many g for so much.
struct Pack {
    double ml = 0, g = 0;  ///< one of the two is set
    double price = 0;
};

struct Prices {
    std::string currency;
    std::map<std::string, Pack> packs;  ///< by material
};

}  // namespace foretone::scene
