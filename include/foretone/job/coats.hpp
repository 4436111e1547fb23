#pragma once
/// How many coats of this reach that tone? One step of a finish with 0 … M coats, the rest as written.

#include "foretone/job/match.hpp"
#include "foretone/search/coats.hpp"

namespace foretone::job {

/// The finished state with so many coats of the step.
struct CoatCount {
    int coats = 0;
    double film_um = 0;
    std::vector<SeenColor> colors;        ///< one a light, with spread
    std::vector<double> added;            ///< ΔE00 to one coat fewer, one a light; empty at the first
    std::vector<double> to_target;        ///< ΔE00 to the target, one a light; empty without one
    std::vector<double> special_index;    ///< empty without a target's reflectance
    std::vector<std::string> words;       ///< what it is, seen from the target
    double spread = 0;                    ///< largest over the lights
    double chance = 0;                    ///< that a client sees a difference to the target, worst light, one board
    double chance_other_board = 0;        ///< and on two boards
    std::optional<double> chance_within;  ///< to be within the target's tolerance, where it says one
    double off_target = 0;  ///< one standard deviation of what lies between it and the target, worst light
    appearance::Spread rests_on;
};

struct Coats {
    std::string finish;
    int step = 1;      ///< from 1
    std::string what;  ///< the step by its materials
    std::vector<std::string> lights;
    std::optional<TargetView> target;
    std::vector<CoatCount> counts;  ///< 0 … M coats
    search::CoatsVerdict verdict;
    std::vector<scene::Problem> warnings;
};

/// What is asked: empty name, 0 and 0 for the first finish that is not the target, its step with the most coats (the
/// last of equals), six coats.
struct CoatsQuestion {
    std::string finish;
    int step = 0;
    int upto = 6;
};

/// Works it out. Throws InputError: an unknown finish or step, a step that cannot be.
Coats coats(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
            const CoatsQuestion& question);

}  // namespace foretone::job
