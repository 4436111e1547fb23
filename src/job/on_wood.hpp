#pragma once
// A scene on another wood.

#include <string>

#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// The scene as if it were written for the library's wood `id`. Throws InputError material-unknown, material-kind,
/// placed at --wood.
scene::Scene on_wood(const scene::Scene& scene, const std::string& id, const scene::Library& library);

}  // namespace foretone::job
