#pragma once
/// The surface's figures fitted to all published boards at once, and how well boards of a paper that was left out are
/// met.

#include <string>
#include <vector>

#include "foretone/job/published.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

/// One unknown of the fit, before and after. `contact` and what papers do not state are on the logit or log scale while
/// fitted; here they are in their own unit, sd by the slope.
struct FittedFigure {
    std::string what;
    double before = 0, before_sd = 0;
    double after = 0, after_sd = 0;
};

/// A published board beside the model, fitted to all other papers.
struct PredictedBoard {
    PublishedBoard board;
    color::Lab change;         ///< ΔL*, Δa*, Δb*
    double de_ab = 0;          ///< predicted
    double sd = 0;             ///< of the prediction: figures, what is not stated, board to board
    double low = 0, high = 0;  ///< 90 % range, from 0
    bool inside = false;       ///< the published difference lies in it
    bool signs_met = false;    ///< every sign that is told
};

/// How a kind of finish fares.
struct Coverage {
    std::string kind;
    int rows = 0, inside = 0;
    double bias = 0, rms = 0;  ///< of predicted less published ΔE*ab
};

struct Calibration {
    std::vector<FittedFigure> figures;   ///< of materials, fitted to all rows marked so
    std::vector<PredictedBoard> boards;  ///< in the table's order, each paper left out in its turn
    std::vector<Coverage> coverage;      ///< by kind, in the order kinds appear
    double solid_share = 1;              ///< c: cell wall in the outermost plane over 1 − porosity
};

/// Nonlinear least squares (Gauss–Newton with a step search) over the unknowns of calibration.cpp, each with its prior
/// as a row of its own; spreads by the normal approximation. A few seconds.
Calibration calibrate(const scene::Library& library);

}  // namespace foretone::job
