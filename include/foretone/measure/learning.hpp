#pragma once
/// Do the stated spreads hold? Hidden worlds: materials drawn from the library's spreads, boards made of them by hand,
/// readings of the boards with noise; and what is foretold of the next board before and after learning from them.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/appearance/spread.hpp"
#include "foretone/measure/fit.hpp"

namespace foretone::measure {

/// One hidden world and what is asked of it.
struct LearningQuestion {
    const material::Shelf& shelf;
    std::string wood;
    schedule::Finish learned;             ///< what the step boards show, read bare and dry after every coat
    std::vector<schedule::Finish> asked;  ///< what is foretold
    optics::Geometry geometry = optics::Geometry::d8_included;
    color::Weights weights;
    int boards = 1;           ///< step boards, each from a plank of its own; 0: before learning
    bool spectra = false;     ///< read as spectra, else as Lab
    double reading_de = 0.3;  ///< one standard deviation of the instrument's repeat, ΔE*ab
    Noise noise{};            ///< as the fit is told, and as it is
    std::uint64_t seed = 0;   ///< of the world: the same for every number of boards
};

/// One board against what was foretold of it.
struct ForetoldColor {
    std::size_t asked = 0;
    bool same_board = false;  ///< cut from the first plank; else from another one
    double error_de00 = 0;    ///< of the middle of what was foretold
    double radius_de00 = 0;   ///< within which 90 % of boards were foretold to lie
    bool inside = false;
};

/// One difference of two finishes on one board.
struct ForetoldDifference {
    std::size_t from = 0, to = 0;
    double error_de00 = 0;  ///< of the middle of the interval
    double width_de00 = 0;  ///< half of the interval of 90 %
    bool inside = false;
};

struct Learned {
    std::string refused;  ///< why there was no fit; empty if there was, or none was asked for
    std::vector<ForetoldColor> colors;
    std::vector<ForetoldDifference> differences;  ///< on another board, each finish against the next
};

/// What is known after a fit: puts its materials on `shelf` and hands on its covariance. A powder whose strength a
/// fitted ready dye carries has no spread of its own from then on (scene::fitted_toml writes it so).
appearance::Knowledge learned_of(const FitResult& result, material::Shelf& shelf);

/// Makes the world, reads the boards, fits, foretells and looks. Same question, same answer. Throws schedule::Fault for
/// a finish that cannot be worked out.
Learned learn(const LearningQuestion& question);

}  // namespace foretone::measure
