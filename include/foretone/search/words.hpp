#pragma once
/// A recipe as a finisher says it, and why a target is out of reach.

#include <string>

#include "foretone/color/lab.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/system.hpp"

namespace foretone::search {

/// "honey-dye 3 + russet-dye 1 + water 36, 70 g/m2; orange-shellac 1.5-lb ×2 sprayed; waterborne-acrylic ×2 brushed, 25
/// GU". No steps: "bare wood". Films and coverages are said in `units`; the metric line is what notebooks compare by.
std::string mixing_line(const schedule::Finish& finish, schedule::UnitSystem units = schedule::UnitSystem::metric);

/// What stands between the nearest recipe and the target: lightness, chroma and hue that are missing, in words with
/// figures: "the target is 4.2 lighter and 3.0 more saturated than any of these recipes". `bare` is the wood before
/// anything: a target lighter than it cannot be reached by finishing, and that is said first.
std::string out_of_reach(const color::Lab& target, const color::Lab& nearest, const color::Lab& bare);

}  // namespace foretone::search
