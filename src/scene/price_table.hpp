#pragma once
/// [prices] of a scene.

#include "foretone/scene/prices.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// `currency = "EUR"`, and a pack for each material: `honey-dye = { ml = 250, price = 19.0 }` or `{ g = 500, price
/// = 22.0 }`.
Prices read_prices(const Keys& keys);

}  // namespace foretone::scene
