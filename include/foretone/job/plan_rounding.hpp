#pragma once
/// What a plan's rounded measures do to the color, and the smallest batch that keeps it.

#include "foretone/appearance/render.hpp"
#include "foretone/job/plan.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

/// Fills in `rounding` of every step whose measures were rounded. Throws what `appearance::stages` throws for the
/// finish as written.
void work_out_rounding(Plan& plan, const scene::Scene& scene, const scene::Library& library,
                       const appearance::Solver& solver);

}  // namespace foretone::job
