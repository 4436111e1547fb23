#pragma once
/// The first real board against its prediction and its target, and the one change that mends it.

#include <optional>
#include <string>
#include <vector>

#include "foretone/learn/board_noise.hpp"
#include "foretone/learn/fit.hpp"
#include "foretone/job/match.hpp"
#include "foretone/search/correct.hpp"

namespace foretone::job {

/// What is asked. Empty names: the first finish that is not the target; the only reading of the file; no bare reading.
struct CorrectQuestion {
    std::filesystem::path measured;
    std::string finish, sample, bare;
    bool buy = false;  ///< a touch of any dye of the library, not only of what is on hand
};

/// One light of the comparison.
struct Compared {
    std::string light;
    color::Lab measured, predicted, target;
    double to_prediction = 0, to_target = 0;  ///< ΔE00 of the board
    std::string words;                        ///< what the board is, seen from the target
};

/// One change and what it should come to.
struct Proposal {
    search::Change change;
    std::string text;
    std::vector<color::Lab> expected;  ///< one a light
    double spread_de00 = 0;            ///< one standard deviation on another board of the wood, first light; of it
    double spread_materials_de00 = 0;  ///< what the reading leaves unknown of the materials, and
    double spread_boards_de00 = 0;     ///< what boards and coats do. On this board, the board is no part of it
    std::string caution;  ///< of a change so large that it goes beyond what was learned; empty if it is not
};

struct Correction {
    std::string finish, recipe, sample, target, observer, geometry;
    bool target_is_prediction = false;
    std::vector<Compared> lights;
    learn::BoardNoise noise;        ///< what boards of exactly the predicted materials differ by
    bool prediction_holds = false;  ///< the board is within the noise's bound of the prediction
    bool done = false;  ///< the board is within that of the target: nothing is to be changed on its word alone
    std::vector<learn::FittedFigure> learned;  ///< what the reading says of the materials
    std::vector<double>
        unchanged_de00;  ///< to the target, one a light: what the next board would come to without a change
    std::vector<Proposal>
        proposals;  ///< the best, and up to two of other kinds; also of a board that is `done`, for when the next
                    ///< one comes out alike, if it is off by more than one reading and one board of the wood
    std::optional<Proposal> on_this_board;  ///< the best that the board as it stands can still take
    std::vector<std::string> advice;
    std::vector<scene::Problem> warnings;
};

/// Compares, learns from the reading, and looks for the change. Throws InputError: as `read_readings` and
/// `view_target`, finish-unknown, sample-unknown, readings-several, light-differs (a Lab reading under another light
/// than the target's), geometry-contradicts, learn::NoFit with its id.
Correction correct(const scene::Scene& scene, const scene::Library& library, const CorrectQuestion& question);

}  // namespace foretone::job
