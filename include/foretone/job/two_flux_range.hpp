#pragma once
/// Does a raw stack lie where the errors of the fast solver are stated?

#include <string>
#include <vector>

#include "foretone/scene/problem.hpp"
#include "foretone/scene/stack_file.hpp"

namespace foretone::job {

/// A warning `two-flux-range` for each way in which a stack leaves what `optics/two_flux.hpp` states the errors for:
/// scattering backward (g below −0.3), under diffuse light a slab that hardly scatters, coefficients, thicknesses and
/// films beyond those of its tables, nothing below. Empty: the stack lies within.
std::vector<scene::Problem> beyond_two_flux(const scene::StackFile& file, const std::string& name);

}  // namespace foretone::job
