#include "foretone/search/chance.hpp"

#include <algorithm>
#include <stdexcept>

namespace foretone::search {

double chance_beyond(double threshold, const color::Lab& target, const std::vector<color::Lab>& draws) {
    if (draws.empty()) throw std::invalid_argument("chance_beyond: no colors to count");
    const auto beyond = std::count_if(draws.begin(), draws.end(),
                                      [&](const color::Lab& c) { return color::delta_e_00(target, c) > threshold; });
    return static_cast<double>(beyond) / static_cast<double>(draws.size());
}

}  // namespace foretone::search
