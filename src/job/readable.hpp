#pragma once
// What can be read of a board.

#include <string>

#include "foretone/appearance/stages.hpp"

namespace foretone::job {

/// One repeat of an instrument and one place of the board, ΔE*ab together (common practice; measure::Noise).
inline constexpr double reading_de = 0.76;

/// "the bare wood", "the board after step 2, coat 1".
inline std::string readable(const appearance::Stage& stage) {
    if (stage.after_step == 0) return "the bare wood";
    return "the board after step " + std::to_string(stage.after_step) + ", coat " + std::to_string(stage.coat);
}

}  // namespace foretone::job
