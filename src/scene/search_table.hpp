#pragma once
// [search]: what `match` may use.

#include <functional>

#include "foretone/scene/scene.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// Puts a material among the materials and returns it; null, having told why, if there is none.
using Take = std::function<const material::Material*(const std::string& id, const Place& place)>;

/// Reads the table; what is wrong goes into the keys' problems.
SearchTable read_search_table(const Keys& keys, const Take& take);

/// [target] srgb: the patch as Lab under D65 for the 2° observer.
void read_srgb(const Keys& target, Target& out);

}  // namespace foretone::scene
