#include "foretone/search/coats.hpp"

#include <algorithm>
#include <cstddef>
#include <stdexcept>

namespace foretone::search {

CoatsVerdict coats_verdict(const std::vector<CoatsStep>& steps) {
    if (steps.empty()) throw std::invalid_argument("coats_verdict: no number of coats at all");
    CoatsVerdict out;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto& step = steps[i];
        if (!step.to_target) continue;
        if (!out.nearest || *step.to_target < *steps[static_cast<std::size_t>(*out.nearest)].to_target)
            out.nearest = static_cast<int>(i);
        if (!out.within && *step.to_target <= step.spread) out.within = static_cast<int>(i);
    }
    // Coats of which none is seen by itself may well be seen together: all that follow are held against the first.
    for (std::size_t i = 0; i + 1 < steps.size() && !out.settled; ++i)
        if (std::all_of(steps.begin() + static_cast<std::ptrdiff_t>(i) + 1, steps.end(),
                        [&](const CoatsStep& more) { return more.apart.at(i) < coat_seen_de00; }))
            out.settled = static_cast<int>(i);
    return out;
}

}  // namespace foretone::search
