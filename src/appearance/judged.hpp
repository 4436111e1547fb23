#pragma once
// Regions and quantiles of colors that were drawn.

#include "worlds.hpp"

namespace foretone::appearance {

/// The colors of one stage under one light with what is needed to judge them.
struct Sample {
    std::vector<Draws> sets;
    std::vector<std::vector<const World*>> worlds;  // of the same

    Draws all() const;
};

/// Of the first boards, or of both boards of each world in turn.
Sample sampled(const std::vector<Set>& sets, std::size_t finish, std::size_t stage, std::size_t light, bool both);

/// The region of a sample; `slopes` of these colors, 3 × coordinates.
Region region_of(const Sample& sample, const Eigen::MatrixXd& slopes, const std::vector<Coordinate>& coordinates);

/// What boards do, from pairs of boards of one world.
void set_boards_share(Region& region, const Draws& draws);

/// If the materials were known: the mean and, about it, what two boards of a world differ by, over √2, to both sides.
Region boards_alone(const Draws& draws, const color::Lab& mean);

}  // namespace foretone::appearance
