#pragma once
/// A first scene, with a comment beside every key.

#include <string>
#include <vector>

#include "foretone/scene/library.hpp"
#include "foretone/schedule/system.hpp"

namespace foretone::job {

/// One coat, or several alike: "orange-shellac x2".
struct NewStep {
    std::string use;
    int coats = 0;  ///< 0: the usual one or two
};

struct NewScene {
    std::string title;
    std::string wood = "hard-maple";
    std::vector<std::string> lights = {"D65", "A"};
    std::vector<std::vector<NewStep>> finishes;
    std::string target;  ///< "#b5651d", "60, 20, 45", a file, or the name of one of its finishes; empty: none
    schedule::UnitSystem units = schedule::UnitSystem::metric;
};

/// "orange-shellac x2, waterborne-acrylic" in steps; a bare number of coats or an empty part is a fault. Throws
/// InputError steps-syntax, material-unknown (with the nearest), material-kind.
std::vector<NewStep> read_steps(const std::string& text, const scene::Library& library);

/// The scene's text. Throws InputError material-unknown or material-kind for the wood, light-unknown.
std::string new_scene_text(const NewScene& scene, const scene::Library& library);

}  // namespace foretone::job
