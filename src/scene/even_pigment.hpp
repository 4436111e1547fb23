#pragma once
/// What is reckoned more evenly than it comes out.

#include <vector>

#include "foretone/scene/scene.hpp"

namespace foretone::scene {

/// `pigment-even` for every step of a finish that puts pigment on and is wiped. For a finish that can be worked out:
/// throws Fault otherwise.
std::vector<Problem> even_pigment(const Scene& scene, std::size_t finish);

}  // namespace foretone::scene
