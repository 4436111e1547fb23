#pragma once
// Which finish of a scene a question means.

#include <string>

#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// Index of the finish called `name`; of the first that is not the target if nothing was named. Throws InputError
/// `finish-empty` ("there is no finish to ..." `purpose`) or `finish-unknown` with the nearest name.
std::size_t asked_finish(const scene::Scene& scene, const std::string& name, const std::string& purpose);

}  // namespace foretone::job
