#pragma once
// Coordinates turned, so that few of them carry what colors do to first order.

#include <Eigen/Core>
#include <vector>

#include "foretone/appearance/uncertain.hpp"

namespace foretone::appearance {

/// The coordinates of one origin, turned: coordinate `which[i]` is Σ_k turn(i, k) u_k.
struct Turned {
    std::vector<std::size_t> which;
    Eigen::MatrixXd turn;
    std::vector<double> size;  // of each u: what it does to the finished colors, largest first
};

/// `slopes`: rows of colors, one column a coordinate.
Turned turned(const UncertainFigures& figures, const Eigen::MatrixXd& slopes, Origin origin);

}  // namespace foretone::appearance
