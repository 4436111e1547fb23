#pragma once
/// Do the stated spreads hold? Hidden worlds: materials drawn from the library's spreads, boards made of them by hand,
/// readings of the boards with noise; and what is predicted of the next board before and after learning from them.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/appearance/spread.hpp"
#include "foretone/learn/fit.hpp"

namespace foretone::learn {

/// One hidden world and what is asked of it.
struct LearningQuestion {
    const material::Materials& materials;
    std::string wood;
    schedule::Finish learned;             ///< what the step boards show, read bare and dry after every coat
    std::vector<schedule::Finish> asked;  ///< what is predicted
    optics::Geometry geometry = optics::Geometry::d8_included;
    color::Weights weights;
    int boards = 1;           ///< step boards, each from a plank of its own; 0: before learning
    bool spectra = false;     ///< read as spectra, else as Lab
    double reading_de = 0.3;  ///< one standard deviation of the instrument's repeat, ΔE*ab
    Noise noise{};            ///< as the fit is told, and as it is
    std::uint64_t seed = 0;   ///< of the world: the same for every number of boards
};

/// One board against what was predicted of it.
struct PredictedColor {
    std::size_t asked = 0;
    bool same_board = false;  ///< cut from the first plank; else from another one
    double error_de00 = 0;    ///< of the middle of what was predicted
    double radius_de00 = 0;   ///< within which 90 % of boards were predicted to lie
    bool inside = false;
};

/// One difference of two finishes on one board.
struct PredictedDifference {
    std::size_t from = 0, to = 0;
    double error_de00 = 0;  ///< of the middle of the interval
    double width_de00 = 0;  ///< half of the interval of 90 %
    bool inside = false;
};

struct Learned {
    std::string refused;  ///< why there was no fit; empty if there was, or none was asked for
    std::vector<PredictedColor> colors;
    std::vector<PredictedDifference> differences;  ///< on another board, each finish against the next
};

/// What is known after a fit: puts its materials on `materials` and hands on its covariance. A powder whose strength a
/// fitted ready dye carries has no spread of its own from then on (scene::fitted_toml writes it so).
appearance::Knowledge learned_of(const FitResult& result, material::Materials& materials);

/// Makes the world, reads the boards, fits, foretells and looks. Same question, same answer. Throws schedule::Fault for
/// a finish that cannot be worked out.
Learned learn(const LearningQuestion& question);

}  // namespace foretone::learn
