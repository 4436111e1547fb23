#pragma once
/// Waits at the shop's temperature and humidity, from waits at 20 °C and 50 % relative humidity.
///
/// One simple rule of common practice: each 10 °C colder doubles a wait, each 10 °C warmer halves it; above 50 %
/// humidity a wait grows in proportion, by as much again at 100 % for what dries from water and by half as much for all
/// else. Dry air is given no credit: it skins over before it dries through.

#include <string>
#include <vector>

#include "foretone/schedule/step.hpp"

namespace foretone::schedule {

struct Air {
    double celsius = 20;
    double humidity_percent = 50;
};

/// Throws Fault: temperature-range outside 5–40 °C, humidity-range outside 0–100 %.
void check(const Air& air);

/// What is worth saying of such air: empty between 15 and 30 °C and under 70 %.
std::vector<std::string> air_notes(const Air& air);

/// Factor on a wait; 1 at 20 °C and 50 %. `from_water`: the layer dries from water. Throws as `check`.
double drying_factor(const Air& air, bool from_water);

}  // namespace foretone::schedule
