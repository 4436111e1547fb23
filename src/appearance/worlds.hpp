#pragma once
// Worlds drawn, and what finishes look like in them.

#include <array>

#include "foretone/appearance/lattice.hpp"
#include "slopes.hpp"
#include "turned.hpp"

namespace foretone::appearance {

/// Which dimension of the lattice each turned coordinate takes: the larger its effect, the earlier. Materials first,
/// then the boards.
class Plan {
public:
    /// `slopes`: rows of colors, one column a coordinate.
    Plan(const UncertainFigures& figures, const Eigen::MatrixXd& slopes);

    std::size_t dimensions() const { return all_; }

    /// A world's board.
    World world(const ShiftedLattice& lattice, std::size_t point, std::size_t board, unsigned again) const;

private:
    std::size_t count_, all_ = 0;
    std::array<Turned, 2> parts_;
    std::vector<std::vector<std::size_t>> dimensions_;  // [materials, board 1, board 2][u]
};

/// A world as it was drawn, and what was seen of it.
struct Seen {
    std::array<World, boards_of_a_world> world;
    std::vector<Colors> first;                        // [finish][stage][light], of the first board
    std::vector<std::vector<color::Lab>> on_another;  // [finish][light], finished, of the other one
};

/// One set of worlds. An impossible schedule is drawn again from the same point of other shifts; a point that fails
/// every time is left out.
struct Set {
    std::vector<Seen> seen;
    std::size_t redrawn = 0;
};

Set draw_set(const SpreadQuestion& question, const Plan& plan, std::uint64_t seed);

/// From the names of what is uncertain: the same input, the same worlds.
std::uint64_t seed_of(const UncertainFigures& figures);

}  // namespace foretone::appearance
