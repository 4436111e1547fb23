#include "foretone/search/coats.hpp"

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
    // From the end back to the last coat that is seen.
    std::size_t i = steps.size();
    while (i > 1 && steps[i - 1].added < coat_seen_de00) --i;
    if (i < steps.size()) out.settled = static_cast<int>(i) - 1;
    return out;
}

}  // namespace foretone::search
