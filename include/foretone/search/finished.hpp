#pragma once
/// The finished state alone: the board after the last coat, without the stages before.

#include "foretone/appearance/render.hpp"
#include "foretone/material/exposure.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::search {

/// What a recipe is tried on.
struct Setting {
    const material::Materials& materials;
    std::string wood;  ///< id among the materials
    optics::Geometry geometry = optics::Geometry::g45_0;
    const appearance::Solver& solver;
    std::vector<material::AgeSpan> after{};  ///< recipes are looked at after these times; none: new
};

/// The finished board itself, new. Throws schedule::Fault as `finished`.
appearance::Board finished_board(const Setting& setting, const schedule::Finish& finish);

/// Reflectance of the finished board, `after` its times: new, the last stage of appearance::stages. Throws
/// schedule::Fault as that.
spectral::Spectrum finished(const Setting& setting, const schedule::Finish& finish);

}  // namespace foretone::search
