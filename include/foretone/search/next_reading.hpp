#pragma once
/// What to measure next: which readings would narrow a finish's spread most.

#include <vector>

#include "foretone/appearance/spread.hpp"

namespace foretone::search {

/// Readings taken together, and what the finish's spread is expected to be with them.
struct NextReading {
    std::vector<std::size_t> of;  ///< which of the candidates
    double spread_de00 = 0;       ///< one standard deviation of the finished color on another board, ΔE00
};

struct NextReadings {
    double now_de00 = 0;    ///< spread without any
    double floor_de00 = 0;  ///< what boards and coats do: no reading takes it away
    NextReading one, two;   ///< the best one, and the best two taken together
    NextReading all;        ///< all of the candidates: a whole step board
};

/// `candidates` are what may be read on the first board of each world, [candidate][world] (appearance::Spread::stages);
/// the finish is laid on the other board (the odd ones of appearance::Spread::finished, of one light). Each reading is
/// off by `reading_de` (≥ 0, ΔE*ab, one standard deviation: the instrument and the place). Without candidates nothing
/// is narrowed. Throws std::invalid_argument for draws that do not go together, or fewer than 100.
NextReadings next_readings(const std::vector<appearance::Draws>& candidates, const appearance::Draws& finished,
                           double reading_de);

}  // namespace foretone::search
