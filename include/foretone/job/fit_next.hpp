#pragma once
/// What to measure next, once step boards have been fitted.

#include "foretone/scene/boards.hpp"
#include "foretone/search/next_reading.hpp"

namespace foretone::job {

/// One of the boards' finishes, as the next board of the wood would show it.
struct FitNext {
    std::string board, wood;            ///< the first board that carries it
    std::vector<std::string> readings;  ///< what can be read of a further board: "the bare wood"
    search::NextReadings next;
};

/// One a finish and wood of the boards, by the covariance that the fit hands on.
std::vector<FitNext> fit_next(const scene::BoardsFile& boards, const learn::FitResult& result);

}  // namespace foretone::job
