#pragma once
/// The finished state alone: the board after the last coat, without the stages before.

#include "foretone/appearance/render.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::search {

/// What the bench works on.
struct Bench {
    const material::Shelf& shelf;
    std::string wood;  ///< id on the shelf
    optics::Geometry geometry = optics::Geometry::g45_0;
    const appearance::Solver& solver;
};

/// The finished board itself. Throws schedule::Fault as `finished`.
appearance::Board finished_board(const Bench& bench, const schedule::Finish& finish);

/// Reflectance of the finished board: the last stage of appearance::stages. Throws schedule::Fault as that.
spectral::Spectrum finished(const Bench& bench, const schedule::Finish& finish);

}  // namespace foretone::search
