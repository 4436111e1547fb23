#pragma once
/// How sure a color is: every figure it rests on moved by its standard deviation, one at a time.

#include <string>
#include <vector>

#include "foretone/appearance/stages.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::appearance {

/// One standard deviation of a wet film put on by hand, as a share of it (common practice).
inline constexpr double wet_film_spread = 0.15;

/// One contributor to the spread of the finished color.
struct Contribution {
    std::string what;  ///< "hard-maple reflectance", "step 1 wet film"
    double de00 = 0;   ///< ΔE00 of the finished color under the first light when it moves by one standard deviation
};

struct Spread {
    std::vector<std::vector<double>> de00;     ///< [stage][light]: root of the summed squares of all contributions
    std::vector<Contribution> contributions;   ///< largest first
    material::Mark rests_on = material::Mark::measured;  ///< weakest mark among the figures used
    std::vector<std::string> weakest;                    ///< ids of the materials with such a figure
};

/// First-order spread of the stages' colors: one figure after another is moved by +1 sd (−1 where that is not possible), all stages are worked out
/// again, and the ΔE00 are added in squares, as for independent figures. A figure that several stages use moves all of them.
/// Exact for small spreads; for large ones (a dye's ±25 %) within some ten per cent of a full sampling.
Spread spread(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish, optics::Geometry geometry,
              const Solver& solver, const std::vector<color::Weights>& lights);

}  // namespace foretone::appearance
