#pragma once
/// When each coat of a finish goes on, and what is done to the layer below first.

#include <optional>
#include <string>
#include <vector>

#include "foretone/schedule/drying.hpp"

namespace foretone::schedule {

/// One coat. Hours count from the first coat.
struct CoatTime {
    int step = 0, coat = 1;  ///< step from 0, coat from 1
    double at_h = 0;
    std::string before;     ///< what is done to the layer below first; empty for nothing
    double wipe_min = 0;    ///< excess is wiped off (or buffed) so long after; 0: it is not wiped
    double earliest_h = 0;  ///< the next coat at the earliest, after this one
    std::optional<double>
        latest_h;  ///< the window shuts so long after this one; none for what re-melts or needs no window
};

struct Timeline {
    std::vector<CoatTime> coats;
    double elapsed_h = 0;              ///< until the last coat is dry
    std::optional<double> cured_days;  ///< after that until the film is hard
};

/// Each coat as soon as the one below allows, or after the days that the step says if they are longer. An oil that the
/// next layer does not hold on to is left to cure. Throws Fault as `mix` and `check`.
Timeline timeline(const Finish& finish, const material::Materials& materials, const Air& air);

}  // namespace foretone::schedule
