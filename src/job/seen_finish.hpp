#pragma once
// One finish of a scene as it is seen, stage by stage.

#include "foretone/job/preview.hpp"

namespace foretone::job {

/// The lights of a look, for its observer. Throws InputError light-unknown.
std::vector<color::Weights> weights_of(const scene::Look& look, const scene::Library& library);

/// Stages, colors, findings and warnings of one finish; no spread yet. Throws InputError for a step that cannot be
/// worked out, with its place.
SeenFinish see_finish(const scene::Scene& scene, std::size_t index, const appearance::Solver& solver,
                      const std::vector<color::Weights>& lights);

/// Gives every color its part of the finish's spread: of all stages, or of the first and the last.
void take_spread(SeenFinish& finish, appearance::Spread spread);

/// Adds a warning for every spectrum of the scene's that was resampled or held beyond its ends.
void warn_resampled(const scene::Scene& scene, std::vector<scene::Problem>& warnings);

}  // namespace foretone::job
