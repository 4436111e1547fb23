#pragma once
// Materials that a scene brings along: tables [material.id] in it, and files of such tables.

#include <functional>

#include "foretone/appearance/joint.hpp"
#include "foretone/scene/cans.hpp"
#include "foretone/scene/library.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// Puts the materials of `materials = ["file.toml", ...]`, then those of [material.*], among the materials; the latter
/// take the place of the former. A file holds `format = 1`, tables [material.id], and [joint] if it was fitted: these
/// go to `fits`, without the figures that were edited or replaced since, which is warned of; what their
/// cans say goes to `cans`. What is wrong goes to the keys' problems, what is worth knowing to `warn`. Returns the
/// place of each.
std::map<std::string, Place> read_own_materials(const Keys& root, const std::filesystem::path& folder,
                                                const Library& library, material::Materials& materials,
                                                std::vector<appearance::JointTable>& fits,
                                                const std::function<void(Problem)>& warn, Cans* cans = nullptr);

/// Puts a library material, and what it is made of, among the materials unless it is there; an unknown id is a problem
/// at `place`.
void take_material(const std::string& id, const Place& place, const Library& library, material::Materials& materials,
                   Problems& problems);

/// The same for what a material among the materials is made of.
void take_parts(const material::Material& m, const Place& place, const Library& library, material::Materials& materials,
                Problems& problems);

}  // namespace foretone::scene
