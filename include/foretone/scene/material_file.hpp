#pragma once
/// Material files (TOML); the format is described in spectra/README.md.

#include <string>
#include <string_view>

#include "foretone/material/material.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {

/// Reads a whole material file. What is wrong goes into `problems`, each with its place; the material returned is only
/// good if nothing was added.
material::Material read_material_file(std::string_view text, const std::string& file, const std::string& id,
                                      Problems& problems);

}  // namespace foretone::scene
