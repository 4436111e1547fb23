#pragma once
/// How long what is mixed stays usable at the shop's temperature, from what the can says of 20 °C.

#include "foretone/schedule/drying.hpp"

namespace foretone::schedule {

/// Hours: t = t20 · 2^((20 − T)/10), t20 the can's hours, T the air, °C: each 10 °C warmer halves it (common practice,
/// as for waits). A can that states it for 23 or 25 °C lasts a little longer than is told here. The heat of a large
/// pot's own hardening, which shortens it further, is not reckoned with. Throws as `check`.
double pot_life_h(double can_h, const Air& air);

}  // namespace foretone::schedule
