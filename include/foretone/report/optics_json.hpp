#pragma once
/// The answer of a raw stack, with what is to be said of it.

#include <string>
#include <vector>

#include "foretone/optics/stack.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/stack_file.hpp"

namespace foretone::report {

/// As `fluxes_json` of report/json.hpp, with `warnings` in the form of every answer.
std::string fluxes_json(const std::string& solver, const scene::StackFile& file, const optics::Fluxes& fluxes,
                        const std::vector<scene::Problem>& warnings);

}  // namespace foretone::report
