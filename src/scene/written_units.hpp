#pragma once
/// Whose units' keys a scene's tables hold.

#include "foretone/schedule/system.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// The system of most keys with a unit under [[finish]], [search] and [prices]; none where neither has more.
std::optional<schedule::UnitSystem> written_units(const toml::table& root);

}  // namespace foretone::scene
