#include "foretone/schedule/pot_life.hpp"

#include <cmath>

namespace foretone::schedule {

double pot_life_h(double can_h, const Air& air) {
    check(air);
    return can_h * std::exp2((20 - air.celsius) / 10);
}

}  // namespace foretone::schedule
