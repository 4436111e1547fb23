#pragma once
/// Is what is said about sureness true? Hidden worlds of the library's materials: how often what was predicted held,
/// before learning from step boards and after.

#include <functional>
#include <string>
#include <vector>

#include "foretone/scene/library.hpp"

namespace foretone::job {

/// One line of the table, over many worlds. ΔE00, D65, 10°, d/8-included.
struct LearningRow {
    int boards = 0;        ///< step boards that were read: 0, 1 or 3
    std::string readings;  ///< "none", "Lab", "spectra"
    std::string what;      ///< "the finish that was read", "a neighbour", "a difference"
    std::string board;     ///< "the same plank", "another board"
    std::size_t cases = 0;
    double coverage = 0;       ///< share of the cases inside the stated 90 %
    double median_radius = 0;  ///< of the stated 90 %; of a difference half its interval
    double median_error = 0;   ///< of the middle of what was predicted
};

struct Learning {
    std::size_t worlds = 0;
    std::size_t refused = 0;  ///< step boards that no set of materials explained: left out
    std::vector<LearningRow> rows;
};

/// `worlds` hidden worlds (≥ 1), on up to `threads` threads; the result does not depend on their number. `progress` is
/// told the share done.
///
/// Each world draws what it uses of the library from its spreads. Its step boards show a dye, a shellac and two coats
/// of a waterborne film, read bare and after every coat (five readings) with an instrument of ΔE 0.3, ΔE 0.7 from place
/// to place and 2 from board to board, laid by a hand of 15 %. Predicted are the finish itself, three neighbours (the
/// dye at half its strength, two more coats, another topcoat) and their differences, each on the plank that was read
/// and on another board.
Learning check_learning(const scene::Library& library, std::size_t worlds, unsigned threads,
                        const std::function<void(double)>& progress);

}  // namespace foretone::job
