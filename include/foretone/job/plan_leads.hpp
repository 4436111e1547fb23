#pragma once
/// What a finish asks to be done ahead of its steps.

#include <string>
#include <vector>

#include "foretone/job/plan.hpp"

namespace foretone::job {

/// Flakes to dissolve, grain to raise, fillers to take off and let dry: one sentence each, in the order of the steps
/// (common practice).
std::vector<std::string> leads_of(const schedule::Finish& finish, const material::Materials& materials);

/// Of each step whose can says how long it stays usable once mixed: when to mix, and that its coats are mixed apart
/// where they lie further apart than that. Fills in `pot_life_h`.
std::vector<std::string> pot_lives(const scene::Scene& scene, const schedule::Finish& finish, Plan& plan);

}  // namespace foretone::job
