#pragma once
// What can be read of a board.

#include <functional>
#include <string>
#include <vector>

#include "foretone/appearance/spread.hpp"
#include "foretone/search/next_reading.hpp"

namespace foretone::job {

/// One repeat of an instrument and one place of the board, ΔE*ab together (common practice; learn::Noise).
inline constexpr double reading_de = 0.76;

struct NextOnBoard {
    std::vector<std::string> readings;  ///< what can be read, the board dry: "the bare wood"
    search::NextReadings next;
};

/// Which reading of a finish's stages would narrow it most. `stage_of` gives each of `stages` as appearance::Stage.
template <class Stages, class StageOf>
NextOnBoard next_on_board(const Stages& stages, const StageOf& stage_of, const appearance::Spread& spread) {
    NextOnBoard out;
    std::vector<appearance::Draws> read;
    for (std::size_t s = 0; s < stages.size(); ++s) {
        const appearance::Stage& stage = std::invoke(stage_of, stages[s]);
        if (stage.kind == appearance::StageKind::damp) continue;
        out.readings.push_back(stage.after_step == 0 ? "the bare wood"
                                                     : "the board after step " + std::to_string(stage.after_step) +
                                                           ", coat " + std::to_string(stage.coat));
        read.push_back(spread.stages[s]);
    }
    out.next = search::next_readings(read, spread.finished.front(), reading_de);
    return out;
}

}  // namespace foretone::job
