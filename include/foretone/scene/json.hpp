#pragma once
/// Results as JSON text: two-space indent, keys in a fixed order, numbers in the shortest form that reads back the
/// same.

#include <string>

#include "foretone/scene/notebook.hpp"
#include "foretone/scene/preview.hpp"

namespace foretone::scene {

inline constexpr const char* version = "0.1.0";

/// The whole preview; with a notebook that is there, each finish has "earlier": its readings beside what is foretold
/// now.
std::string preview_json(const Preview& preview, const Notebook& notebook = {});

/// The colors of one reflectance: {"colors": [...]}.
std::string colors_json(const std::vector<SeenColor>& colors, const std::string& observer, const std::string& geometry,
                        const std::vector<Problem>& warnings);

}  // namespace foretone::scene
