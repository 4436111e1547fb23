#pragma once
/// The demo scenes, worked out.

#include <string>

#include "foretone/job/preview.hpp"
#include "support/whole_library.hpp"

namespace foretone::test {

inline job::Preview demo(const std::string& file) {
    return job::preview(scene::read_scene(std::string(FORETONE_SCENES) + "/" + file, library()), library(),
                        appearance::two_flux_solver());
}

/// A scene from text, worked out.
inline job::Preview worked(const std::string& text) {
    return job::preview(scene::read_scene_text(text, "test.toml", ".", library()), library(),
                        appearance::two_flux_solver());
}

inline const char* const demos[] = {"stool-maple.toml", "shelf-pine.toml", "desk-walnut.toml", "library-oak.toml"};

}  // namespace foretone::test
