#pragma once
/// Materials that a check names: all of them are there, or all that are lacking are told at once.

#include <set>
#include <string>

#include "foretone/scene/library.hpp"

namespace foretone::job {

/// Throws scene::InputError with `material-unknown` for every one of `named` that `library` lacks; `what` is judged:
/// "the verdict".
void require_materials(const scene::Library& library, const std::set<std::string>& named, const std::string& what);

}  // namespace foretone::job
