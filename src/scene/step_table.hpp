#pragma once
/// One [[finish.step]] of a scene.

#include "foretone/scene/scene.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// Reads a step in trade units. What is wrong goes into the keys' problems.
schedule::Step read_step(const Keys& keys, Scene::StepPlace& place);

}  // namespace foretone::scene
