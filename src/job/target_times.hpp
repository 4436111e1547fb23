#pragma once
// How old a target and the recipes are when they are looked at beside each other.

#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// Of the target: its age already, and then the time until both are judged.
std::vector<material::AgeSpan> target_times(const scene::Scene& scene);

/// Of a recipe: the time until both are judged.
std::vector<material::AgeSpan> recipe_times(const scene::Scene& scene);

}  // namespace foretone::job
