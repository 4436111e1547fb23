#pragma once
// What finishes look like in a world, and how their colors move by each coordinate alone.

#include <Eigen/Core>
#include <optional>

#include "foretone/appearance/spread.hpp"
#include "every_fourth.hpp"
#include "trail.hpp"

namespace foretone::appearance {

using Colors = std::vector<std::vector<color::Lab>>;  // [stage][light]
using World = std::vector<double>;                    // one number a coordinate, in standard deviations

/// What the finishes of a question look like in the world that is set.
class Eye {
public:
    Eye(const SpreadQuestion& question, const UncertainFigures& figures);

    /// Of all finishes; throws schedule::Fault.
    std::vector<Colors> look(StagesAsked stages);

    /// The question's stages of the finishes that `coordinate` can change, of the others none; nothing if a schedule is
    /// impossible.
    std::optional<std::vector<Colors>> try_moved(std::size_t coordinate);

private:
    Colors look_at(std::size_t finish, StagesAsked stages);
    Colors look_aged(std::size_t finish);
    std::vector<color::Lab> colors_of(const Board& board, const material::Wood& wood, const optics::Layer& dry) const;
    void start();

    const SpreadQuestion& q_;
    const UncertainFigures& figures_;
    Solver solver_;
    std::vector<NodeWeights> lights_;
    Trail trail_;
    optics::Layer dry_;  // of the wood in the world that is set
};

/// Moves of all colors by each coordinate alone: +1 sd, or −1 (turned round).
struct Slopes {
    std::vector<std::vector<std::vector<Eigen::MatrixXd>>> lab;  // [finish][stage][light], 3 × coordinates
    std::vector<std::vector<double>> de00;                       // [finish][coordinate], finished, first light

    /// Three rows a finish: the finished colors under the first light.
    Eigen::MatrixXd finished() const;
};

/// `coordinates`: of the account that the question makes.
Slopes one_at_a_time(const SpreadQuestion& question, std::size_t coordinates);

/// Calls job(i) for i = 0 … count − 1, at once where the question says how.
void for_each(const SpreadQuestion& question, std::size_t count, const std::function<void(std::size_t)>& job);

}  // namespace foretone::appearance
