#pragma once
/// A reading as the target of a scene.

#include "foretone/scene/readings.hpp"
#include "foretone/scene/scene.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// A reading's curve; else its color under its own light; else `standard` of [target] and its difference to it. Throws
/// InputError standard-missing, value-range.
void target_from(const Keys& target, const OneReading& one, Target& out);

}  // namespace foretone::scene
