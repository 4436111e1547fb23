#include "foretone/schedule/drying.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/schedule/measure.hpp"

namespace foretone::schedule {

void check(const Air& air) {
    if (!(air.celsius >= 5 && air.celsius <= 40))
        throw Fault("temperature-range", -1,
                    base::shortest(air.celsius) + " C: finishes are put on between 5 and 40 C (41 and 104 F)");
    if (!(air.humidity_percent >= 0 && air.humidity_percent <= 100))
        throw Fault("humidity-range", -1,
                    base::shortest(air.humidity_percent) + " %: relative humidity is from 0 to 100 %");
}

std::vector<std::string> air_notes(const Air& air) {
    check(air);
    std::vector<std::string> out;
    if (air.celsius < 15)
        out.emplace_back("cold: films level badly and some never set; most labels ask for 15 C (59 F) or more");
    if (air.celsius > 30) out.emplace_back("hot: wet edges go fast; thin or retard, and work small");
    if (air.humidity_percent > 70)
        out.emplace_back(
            "damp: shellac and lacquer may blush white, waterborne dries slowly; wait for drier air if you can");
    return out;
}

double drying_factor(const Air& air, bool from_water) {
    check(air);
    const double damp = std::max(0.0, air.humidity_percent - 50) / 50;
    return std::exp2((20 - air.celsius) / 10) * (1 + (from_water ? 1.0 : 0.5) * damp);
}

}  // namespace foretone::schedule
