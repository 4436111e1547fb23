#pragma once
/// Every stage of a finish, from bare wood to the last coat.

#include <string>
#include <vector>

#include "foretone/appearance/render.hpp"
#include "foretone/schedule/step.hpp"

namespace foretone::appearance {

enum class StageKind { bare, damp, dry, coated, finished };

/// "bare", "damp", ...
std::string_view word(StageKind kind);

/// One stage. Steps and coats count from 1; both are 0 for bare wood.
struct Stage {
    StageKind kind = StageKind::bare;
    int after_step = 0;
    int coat = 0;
    std::string action;  ///< what was put on, by the materials' names
    double film_um = 0;  ///< total dry film on the wood
    SplitReflectance reading;
    schedule::Account account;  ///< of the coat that led here; all zero for bare wood
};

struct Stages {
    std::vector<Stage> stages;
    std::vector<std::string> notes;  ///< what the schedule left to be assumed, once each
};

/// The stages of `finish` on `wood`, one of the materials: bare; damp and dry for each coat of what soaks in; coated
/// for each coat of a film; the last is `finished`. A damp stage shows the board while wet. Throws schedule::Fault;
/// `step_of_fault` tells at which step (0-based) if not null.
Stages stages(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, int* step_of_fault = nullptr);

/// Where every coat of `finish` goes on the wood's mean spot, [step][coat]. Throws as `stages`.
std::vector<std::vector<schedule::Account>> accounts(const material::Materials& materials, const std::string& wood,
                                                     const schedule::Finish& finish);

}  // namespace foretone::appearance
