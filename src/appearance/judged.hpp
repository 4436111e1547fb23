#pragma once
// Regions and quantiles of colors that were drawn.

#include "worlds.hpp"

namespace foretone::appearance {

/// Worlds drawn, as columns, set by set: of the first board, of the other one, and of both in turn.
struct Worlds {
    Worlds(const std::vector<Set>& sets, std::size_t coordinates);
    Eigen::MatrixXd first, both;
    Eigen::MatrixXd apart;                         ///< what the two boards differ by, over √2, to both sides
    Eigen::VectorXd mean;                          ///< of `both`
    std::vector<std::size_t> sizes, double_sizes;  ///< of the sets; of them with both boards
};

/// Colors of one stage under one light, of the first boards or of both boards of each world in turn.
Draws drawn(const std::vector<Set>& sets, std::size_t finish, std::size_t stage, std::size_t light, bool both);

/// The region of such draws; `slopes` of these colors, 3 × coordinates.
Region region_of(const Draws& draws, const Worlds& worlds, bool both, const Eigen::MatrixXd& slopes,
                 const std::vector<Coordinate>& coordinates);

/// What boards do, from pairs of boards of one world.
void set_boards_share(Region& region, const Draws& draws);

/// If the materials were known: the mean and, about it, what two boards of a world differ by, over √2, to both sides.
Region boards_alone(const Draws& draws, const color::Lab& mean, const Worlds& worlds, const Eigen::MatrixXd& slopes,
                    const std::vector<Coordinate>& coordinates);

/// How two finishes may differ on one board; `about`: the mean of `from`; `slopes` of the difference of their colors.
DifferenceSpread difference_of(const Draws& from, const Draws& to, const color::Lab& about, const Worlds& worlds,
                               const Eigen::MatrixXd& slopes);

}  // namespace foretone::appearance
