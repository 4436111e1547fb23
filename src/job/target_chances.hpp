#pragma once
// A finish against the target, draw by draw.

#include "foretone/job/match.hpp"

namespace foretone::job {

/// The finish of the scene that is its target; null if the target is a sample.
const schedule::Finish* target_finish(const scene::Scene& scene);

/// The target's colors under each of its lights, [light][draw]: a finish's draws, a sample's color in each.
std::vector<appearance::Draws> aimed_at(const TargetView& target, const appearance::Spread* finish, std::size_t draws);

struct Chances {
    double seen = 0, seen_other_board = 0;  ///< 0–1, worst light: above search::client_sees_de00
    std::optional<double> within;           ///< the target's tolerance, under every light, on the board it says
    double off_target_de00 = 0;             ///< one standard deviation of the difference, worst light, one board
};

/// `spread` is of the same worlds as `aim`.
Chances target_chances(const std::vector<appearance::Draws>& aim, const appearance::Spread& spread,
                       const scene::Target& target);

}  // namespace foretone::job
