#pragma once
/// What rounding a pot's measures does to the color of the finished board.

#include "foretone/appearance/render.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/scene/scene.hpp"

namespace foretone::job {

/// ΔE00 between the finish as written and with one step (0-based) as measured, under each light of the look; the
/// finished state of both.
std::vector<double> rounding_de00(const scene::Scene& scene, std::size_t finish, std::size_t step,
                                  const schedule::Pot& pot, const scene::Library& library,
                                  const appearance::Solver& solver);

}  // namespace foretone::job
