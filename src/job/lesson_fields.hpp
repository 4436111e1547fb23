#pragma once
// What the boards of a lesson are compared by.

#include <map>
#include <string>

#include "foretone/job/lesson.hpp"

namespace foretone::job {

/// All that a step says, field by field, as text.
using StepFields = std::map<std::string, std::string>;
StepFields fields_of(const schedule::Step& step);

/// What a difference in a field is called, where it is the only one. What goes on, with its amounts and coats, is one
/// thing under "material".
const std::map<std::string, Varies>& meanings();

}  // namespace foretone::job
