#pragma once
/// Whether a step's liquid soaks into bare wood, so that the wood's figure shows in what it takes up.

#include "foretone/material/material.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::schedule {

/// A dye, a stain or an oil that no film holds together.
bool soaks_in(const Step& step, const material::Materials& materials);

/// One of its steps does.
bool soaks_in(const Finish& finish, const material::Materials& materials);

}  // namespace foretone::schedule
