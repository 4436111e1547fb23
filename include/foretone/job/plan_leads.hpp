#pragma once
/// What a finish asks to be done ahead of its steps.

#include <string>
#include <vector>

#include "foretone/schedule/step.hpp"

namespace foretone::job {

/// Flakes to dissolve, grain to raise, fillers to take off and let dry: one sentence each, in the order of the steps
/// (common practice).
std::vector<std::string> leads_of(const schedule::Finish& finish, const material::Materials& materials);

}  // namespace foretone::job
