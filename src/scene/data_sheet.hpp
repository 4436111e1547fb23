#pragma once
/// What cans and data sheets print, in the keys of materials.

#include <vector>

#include "foretone/scene/cans.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// In each [material.NAME] of `root`: lb_per_gal and specific_gravity become density_g_per_ml, and
/// coverage_ft2_per_gal_1_mil_dry becomes solids_volume_percent, each unless that key is there too; what is known and
/// not used (weight solids, APHA, cup seconds, shelf life ...) is taken out. Returns what is to be said of it.
/// Faults: value-type, value-range, key-conflict.
/// pot_life_hours and VOC go into `cans`, by the material's name, in the place of what an earlier file said of that
/// name.
std::vector<Problem> apply_data_sheets(toml::table& root, const std::string& file, Problems& problems, Cans& cans);

}  // namespace foretone::scene
