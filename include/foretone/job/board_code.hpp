#pragma once
/// A short code on the back of a board that says which recipe is on it, read back by eye and typed by hand.

#include <string>

#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// Five letters and digits, "K7QM-4": four for the finish (its name and every figure of its steps), one to notice a
/// slip. The same recipe has the same code on every machine; a recipe that is changed has another.
std::string board_code(const schedule::Finish& finish);

/// The finish of the scene that a code was written for. Case, blanks and the hyphen do not matter. Throws InputError,
/// placed at `asked`: code-syntax, code-slip (one sign misread, or two exchanged), code-unknown.
std::size_t finish_of_code(const scene::Scene& scene, const std::string& code, const std::string& asked = "--code");

}  // namespace foretone::job
