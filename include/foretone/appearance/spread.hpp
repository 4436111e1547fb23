#pragma once
/// How sure colors are, and differences of colors: everything that is not known drawn at once, many times, the same
/// worlds for every finish.

#include <functional>
#include <string>
#include <vector>

#include "foretone/appearance/lattice.hpp"
#include "foretone/appearance/region.hpp"
#include "foretone/appearance/stages.hpp"
#include "foretone/appearance/uncertain.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::appearance {

/// Worlds are drawn in so many independent sets (shifts of the lattice), to see how far sets differ: 6, and up to 42,
extern const std::size_t draw_sets, most_draw_sets;

/// so many more at a time, up to `most_draw_sets`, as long as one standard error of some quantile is above this share
/// of it and above this ΔE00, which rounding to one decimal hides,
inline constexpr std::size_t further_sets = 3;
inline constexpr double sampling_error_meant = 0.03;
inline constexpr double unseen_error_de00 = 0.05;

/// and each world has so many boards: the same materials, boards and coats drawn apart.
inline constexpr std::size_t boards_of_a_world = 2;

/// Draws of one set, both boards of each world.
inline constexpr std::size_t draws_of_a_set = lattice_points * boards_of_a_world;

/// One contributor to the spread of the finished color.
struct Contribution {
    std::string what;  ///< "hard-maple reflectance", "step 1 wet film"
    /// ΔE00 of the finished color under the first light when it alone moves by one standard deviation.
    double de00 = 0;
    Origin origin = Origin::materials;
};

/// Colors of all draws under one light. Draws 2k and 2k + 1 are two boards of the same materials.
using Draws = std::vector<color::Lab>;

/// How a difference of two finishes may turn out.
struct DifferenceSpread {
    double spread_de00 = 0;              ///< root mean square of what it is off its mean difference
    double low_de00 = 0, high_de00 = 0;  ///< 90 % of the differences lie between
    double sampling_error = 0;  ///< one standard error of either, the larger, as a share of `high_de00`; 0: not told
};

struct Spread {
    std::vector<std::vector<Region>> regions;  ///< [stage][light], boards and materials together
    std::vector<Region> boards;                ///< [light]: the finished color if the materials were known
    std::vector<Draws> finished;               ///< [light]
    /// [finish before this one][light]: from that finish to this one, finished, on one board. Empty if not
    /// asked for.
    std::vector<std::vector<DifferenceSpread>> from_earlier;
    std::vector<Draws> stages;                ///< [stage], under the first light: the first board of each world
    std::vector<Contribution> contributions;  ///< largest first
    std::size_t redrawn = 0;  ///< worlds in which some schedule could not be worked out and that were drawn again
    material::Mark rests_on = material::Mark::measured;  ///< weakest mark among the figures used
    std::vector<std::string> weakest;                    ///< ids of the materials with such a figure

    /// Root mean square ΔE00 from the mean: one standard deviation.
    double de00(std::size_t stage, std::size_t light) const { return regions[stage][light].rms_de00; }
};

/// How worlds are drawn: otherwise than usual only to judge it.
struct Drawing {
    std::size_t sets = draw_sets;            ///< to begin with, ≥ 2
    std::size_t most_sets = most_draw_sets;  ///< at most
    std::uint64_t seed = 0;                  ///< another one, other worlds
};

/// Which stages of a finish are asked for: all, bare wood and the last, the last.
enum class StagesAsked { all, first_and_last, last };

/// Finishes on one wood, seen under lights (one or more).
struct SpreadQuestion {
    const material::Materials& materials;
    std::string wood;
    std::vector<schedule::Finish> finishes;
    optics::Geometry geometry = optics::Geometry::g45_0;
    const Solver& solver;
    std::vector<color::Weights> lights;
    StagesAsked stages = StagesAsked::all;  ///< the others are left out of what comes back
    Knowledge knowledge{};
    /// Calls job(i) for i = 0 … count − 1, in any order, perhaps at once; none: one after the other. The outcome is the
    /// same.
    std::function<void(std::size_t count, const std::function<void(std::size_t)>& job)> for_each{};
    Drawing drawing{};
    bool compared = true;  ///< each finish with those before it: `from_earlier`
};

/// Spread of each finish, all by the same quasi-random worlds (lattice.hpp, uncertain.hpp): draw i of one finish and
/// draw i of another are of one wood, one set of cans, one board. A world in which a schedule cannot be worked out is
/// drawn again. The lattice's shifts come from the names of what is uncertain, so that the same input gives the same
/// bytes. Colors are solved at every fourth wavelength, within ΔE00 0.05. Finished colors are
/// seen on both boards of a world, the stages before on the first alone. Quantiles are corrected by what the same
/// worlds make of the colors' linear part, whose quantile is known (a control variate). Sets are added until every
/// sampling error, of colors and of differences of finishes on one board, is below `sampling_error_meant` or
/// `unseen_error_de00`. The contributions are the finished color's moves by one coordinate at a time, +1 sd, or −1
/// where +1 cannot be; those of one name are added in squares. Throws schedule::Fault if a schedule is impossible as it
/// stands.
std::vector<Spread> spreads(const SpreadQuestion& question);

/// Of one finish alone.
Spread spread(const material::Materials& materials, const std::string& wood, const schedule::Finish& finish,
              optics::Geometry geometry, const Solver& solver, const std::vector<color::Weights>& lights,
              const Knowledge& knowledge = {});

/// Of the same worlds, draw by draw, by the draws' own quantiles; `de00`, if asked for, is set to each draw's ΔE00.
/// Throws std::invalid_argument for draws of unequal number or none.
DifferenceSpread difference_spread(const Draws& from, const Draws& to, std::vector<double>* de00 = nullptr);

/// The draws of the other board of each world: a new piece, the same materials.
Draws on_the_other_board(Draws draws);

/// Share, 0–1, of the draws in which the two lie more than ΔE00 `threshold` apart. Throws as `difference_spread`.
double chance_beyond(double threshold, const Draws& from, const Draws& to);

}  // namespace foretone::appearance
