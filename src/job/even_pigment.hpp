#pragma once
/// What is reckoned more evenly than it comes out.

#include <vector>

#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// `pigment-even` for every step of a finish that puts pigment on and is wiped. For a finish that can be worked out:
/// throws Fault otherwise.
std::vector<scene::Problem> even_pigment(const scene::Scene& scene, std::size_t finish);

}  // namespace foretone::job
