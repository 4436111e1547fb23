#pragma once
/// A step's ready colored coat or treatment, if it holds one.

#include "foretone/schedule/step.hpp"

namespace foretone::schedule {

/// The first material of the step that is a ready colored coat or a treatment; null if there is none.
inline const material::Material* ready_of(const Step& step, const material::Materials& materials) {
    for (const auto& part : step.mix) {
        const auto it = materials.find(part.use);
        if (it == materials.end()) continue;
        if (std::holds_alternative<material::Colored>(it->second.data) ||
            std::holds_alternative<material::Treatment>(it->second.data))
            return &it->second;
    }
    return nullptr;
}

/// How a ready coat is usually put on: toners are sprayed, all else is wiped.
inline material::Method usual_method(const material::Material& ready) {
    return facts(ready.kind).first_try == material::FirstTry::sprayed ? material::Method::spray
                                                                      : material::Method::wipe;
}

}  // namespace foretone::schedule
