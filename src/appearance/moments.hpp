#pragma once
// A schedule put on a board coat by coat: what the stages of a finish and the draws of its spread have in common.

#include <functional>
#include <vector>

#include "foretone/appearance/stages.hpp"
#include "foretone/appearance/uncertain.hpp"

namespace foretone::appearance {

/// The board at one stage. Steps and coats count from 0; step −1 is bare wood.
struct Moment {
    StageKind kind = StageKind::bare;
    int step = -1;
    int coat = 0;
    const schedule::Deposit* deposit = nullptr;  ///< of this coat; null for bare wood
    double film_um = 0;                          ///< dry film on the board; for a damp stage, before this coat
    std::function<const Board&()> board;         ///< works the board out when asked, valid until the visit ends
};

/// Visits the stages in order. Throws schedule::Fault, `step_of_fault` as `stages` says; also for a coat that its
/// factor takes out of 1–500 µm.
void visit_moments(const material::Materials& materials, const material::Wood& wood, const schedule::Finish& finish,
                   const Departure& departure, int* step_of_fault, const std::function<void(const Moment&)>& visit);

}  // namespace foretone::appearance
