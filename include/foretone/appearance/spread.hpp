#pragma once
/// How sure a color is: every figure it rests on drawn from its spread, all at once, many times.

#include <string>
#include <vector>

#include "foretone/appearance/region.hpp"
#include "foretone/appearance/stages.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::appearance {

/// One standard deviation of the wet film of a coat put on by hand, as a share of it (common practice).
inline constexpr double wet_film_spread = 0.15;

/// Share of that variance which all coats of a step have in common: the correlation of two of them (a choice: as much
/// the hand as the coat).
inline constexpr double wet_film_common = 0.5;

/// One contributor to the spread of the finished color.
struct Contribution {
    std::string what;  ///< "hard-maple reflectance", "step 1 wet film"
    double de00 =
        0;  ///< ΔE00 of the finished color under the first light when it alone moves by one standard deviation
};

struct Spread {
    std::vector<std::vector<Region>> regions;       ///< [stage][light]
    std::vector<std::vector<color::Lab>> finished;  ///< [light][draw]: the finished color of every draw
    std::vector<Contribution> contributions;        ///< largest first
    std::size_t redrawn = 0;  ///< draws whose schedule could not be worked out and that were drawn again
    material::Mark rests_on = material::Mark::measured;  ///< weakest mark among the figures used
    std::vector<std::string> weakest;                    ///< ids of the materials with such a figure

    /// Root mean square ΔE00 from the mean: one standard deviation.
    double de00(std::size_t stage, std::size_t light) const { return regions[stage][light].rms_de00; }
};

/// Spread of the stages' colors by `lattice_points` quasi-random draws (lattice.hpp). In each draw every figure of
/// every material used is normal about its value, kept inside its valid range (material::move), the same for everything
/// that uses it; the wet film of each coat is normal about what is said, partly in common within a step. Figures are
/// taken as independent of each other. A draw whose schedule is impossible is drawn again. The lattice's shift comes
/// from the names of what is uncertain, so that the same input gives the same bytes. The contributions are the finished
/// color's moves by one figure at a time, +1 sd, or −1 where +1 is impossible; a hand's parts (of the step and of its
/// coats) are added in squares. `hand` is one standard deviation of a coat's wet film, as a share (≥ 0). Throws
/// schedule::Fault if the schedule is impossible as it stands.
Spread spread(const material::Shelf& shelf, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights,
              double hand = wet_film_spread);

}  // namespace foretone::appearance
