#pragma once
/// What the order rules see of a step.

#include <optional>
#include <set>
#include <string>

#include "foretone/schedule/step.hpp"

namespace foretone::schedule {

struct CoatFacts {
    std::string name;
    const material::Material* binder = nullptr;  ///< the one of largest dry volume; null for a dye or a plain liquid
    const material::Material* ready = nullptr;   ///< a ready colored coat or a treatment in it
    std::set<std::string> carriers;              ///< liquids that are in it while wet
    std::set<std::string> lifted_by;             ///< liquids that dissolve it again once dry
    material::Sure lifted_sure = material::Sure::practice;
    bool colored = false;  ///< holds dye or pigment put in by the mix
    material::Method method = material::Method::wipe;
    std::optional<double> early_h;  ///< dry enough to go on
    std::optional<double> late_h;

    /// What a ready coat says of itself goes before what its binder says.
    const material::Order* order() const {
        return ready && ready->order.known() ? &ready->order : binder ? &binder->order : nullptr;
    }
    bool oil() const { return binder && binder->kind == material::Kind::oil; }
    bool wax() const { return binder && binder->kind == material::Kind::wax; }
};

/// Throws Fault as `mix`.
CoatFacts coat_facts(const Step& step, const material::Materials& materials);

}  // namespace foretone::schedule
