// Directions in which colors move. Symbols: z coordinates of a world, standard normal · J slopes of the finished colors
// by them · V right singular vectors of J.
//   z = V u
//
// u is standard normal as z is, but the finished colors depend, to first order, on as few of the u as there are colors:
// three a finish, whatever the number of figures (Imai & Tan 2006). Materials and boards are turned apart, as each
// world has two boards for its materials.

#include "turned.hpp"

#include <Eigen/SVD>

namespace foretone::appearance {
namespace {

constexpr double least_effect = 1e-5;  // of the largest: below it a direction is one of rounding

// Orthonormal columns and, behind them, a basis of what they leave, taken from the axes in their order: unlike singular
// vectors of no effect, which are what rounding makes of them, it is the same on every machine.
Eigen::MatrixXd completed(const Eigen::MatrixXd& columns) {
    const auto n = columns.rows();
    Eigen::MatrixXd out = Eigen::MatrixXd::Zero(n, n);
    out.leftCols(columns.cols()) = columns;
    auto filled = columns.cols();
    for (double least = 0.1; filled < n; least /= 10)
        for (Eigen::Index axis = 0; axis < n && filled < n; ++axis) {
            Eigen::VectorXd rest = Eigen::VectorXd::Unit(n, axis);
            for (int twice = 0; twice < 2; ++twice)
                rest -= out.leftCols(filled) * (out.leftCols(filled).transpose() * rest);
            if (rest.norm() < least) continue;
            out.col(filled++) = rest.normalized();
        }
    return out;
}

}  // namespace

Turned turned(const UncertainFigures& figures, const Eigen::MatrixXd& slopes, Origin origin) {
    Turned out;
    for (std::size_t c = 0; c < figures.coordinates().size(); ++c)
        if (figures.coordinates()[c].origin == origin) out.which.push_back(c);
    const auto n = static_cast<Eigen::Index>(out.which.size());
    Eigen::MatrixXd part(slopes.rows(), n);
    for (Eigen::Index i = 0; i < n; ++i)
        part.col(i) = slopes.col(static_cast<Eigen::Index>(out.which[static_cast<std::size_t>(i)]));
    if (n == 0) return out;
    const Eigen::JacobiSVD<Eigen::MatrixXd> svd(part, Eigen::ComputeThinV);
    out.size.assign(out.which.size(), 0.0);
    Eigen::Index rank = 0;
    while (rank < svd.singularValues().size() && svd.singularValues()(rank) > least_effect * svd.singularValues()(0)) {
        out.size[static_cast<std::size_t>(rank)] = svd.singularValues()(rank);
        ++rank;
    }
    out.turn = completed(svd.matrixV().leftCols(rank));
    for (Eigen::Index k = 0; k < n; ++k) {  // a singular vector's sign is free
        Eigen::Index most = 0;
        out.turn.col(k).cwiseAbs().maxCoeff(&most);
        if (out.turn(most, k) < 0) out.turn.col(k) *= -1;
    }
    return out;
}

}  // namespace foretone::appearance
