#pragma once
/// One material from a TOML table: a file of the library, or a [material.x] of a scene.

#include <filesystem>

#include "foretone/material/figures.hpp"
#include "foretone/scene/library.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// Reads the table. With `library` given (a scene's own material) a figure may be a bare number, marked stated, and
/// what is not given is taken from the material named by `like` (or the usual one of its kind), said in the material's
/// note; a reflectance may be a CSV path relative to `folder`. Figures that were stated without what they go with
/// (`material::companions`) are told in `notes`.
material::Material read_material(const Keys& keys, const std::string& id, const Library* library = nullptr,
                                 const std::filesystem::path& folder = {}, std::vector<Problem>* notes = nullptr);

/// A spectrum table ([reflectance] and its like) into `out`. `low`, `high`: valid range of each value.
bool read_spectrum(const Keys& keys, const std::string& what, double low, double high, bool in_scene,
                   material::SpectrumFigure& out);

/// A figure node, a table of value, sd, mark and source (or in a scene a bare number), into `out`; false if it is not
/// good.
bool read_figure(const Keys& keys, const toml::node& node, const material::FigureAt& at, bool in_scene,
                 material::Figure& out);

/// mark and source of `what`; both are owed by a library, neither by a scene.
material::Provenance read_provenance(const Keys& keys, const std::string& what, bool in_scene);

/// The table [order] of a material, over what `out` holds already.
void read_order(const Keys& order, bool in_scene, material::Order& out);

/// The table [grain] of a wood into `out`. In a scene any figure may be left out: it keeps what `out` holds, or that of
/// a plain wood. False if one was left out.
bool read_grain(const Keys& grain, bool in_scene, std::optional<material::Grain>& out);

/// The words of the three geometries and back.
std::vector<std::string> geometry_words();
optics::Geometry geometry_from(const std::string& word);
std::string geometry_word(optics::Geometry g);

}  // namespace foretone::scene
