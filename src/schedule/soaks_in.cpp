#include "foretone/schedule/soaks_in.hpp"

#include <algorithm>

namespace foretone::schedule {

bool soaks_in(const Step& step, const material::Materials& materials) {
    bool soaks = false;
    for (const auto& part : step.mix) {
        const auto& kind = facts(materials.at(part.use).kind);
        if (kind.closes) return false;
        soaks = soaks || kind.sinks;
    }
    return soaks;
}

bool soaks_in(const Finish& finish, const material::Materials& materials) {
    return std::any_of(finish.steps.begin(), finish.steps.end(),
                       [&](const Step& step) { return soaks_in(step, materials); });
}

}  // namespace foretone::schedule
