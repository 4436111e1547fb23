// Levenberg's method on the normal equations. Symbols: r residuals · J their Jacobian · A = JᵀJ · x unknowns · δ step · µ
// damping.
//   (A + µ) δ = −Jᵀ r,   expected fall of |r|²:  −δᵀ(2 Jᵀr + Aδ)
// The prior's rows of J are those of the identity, so that A is 1 or more in every direction, all unknowns have one unit
// and one µ serves them all. Spectra of three boards make J some nine hundred rows of four hundred columns, but places
// and instruments are felt by their own reading alone: A is summed over few rows at a time, by the columns that are not
// nothing there. It loses no digit that a fit needs (A is below 1e7).
// The first try of each round is the whole step, µ = 0, as soon as the last one went well.

#include "least_squares.hpp"

#include <Eigen/Cholesky>
#include <algorithm>

namespace foretone::learn {
namespace {

constexpr int most_rounds = 40;
constexpr double enough = 1e-6;  // of |r|²: what a round must bring for another one to be worth it
constexpr double first_damping = 1, stronger = 10, most_damping = 1e8;

Eigen::VectorXd moved(Eigen::VectorXd p, const std::vector<std::size_t>& active, const Eigen::VectorXd& step) {
    for (std::size_t a = 0; a < active.size(); ++a)
        p(static_cast<Eigen::Index>(active[a])) += step(static_cast<Eigen::Index>(a));
    return p;
}

}  // namespace

Eigen::MatrixXd squared(const Eigen::MatrixXd& j) {
    constexpr Eigen::Index most_rows = 31;  // a spectrum's, 400 to 700 nm
    Eigen::MatrixXd out = Eigen::MatrixXd::Zero(j.cols(), j.cols());
    for (Eigen::Index from = 0; from < j.rows(); from += most_rows) {
        const Eigen::Index rows = std::min(most_rows, j.rows() - from);
        std::vector<Eigen::Index> felt;
        for (Eigen::Index c = 0; c < j.cols(); ++c)
            if ((j.col(c).segment(from, rows).array() != 0).any()) felt.push_back(c);
        Eigen::MatrixXd part(rows, static_cast<Eigen::Index>(felt.size()));
        for (std::size_t a = 0; a < felt.size(); ++a)
            part.col(static_cast<Eigen::Index>(a)) = j.col(felt[a]).segment(from, rows);
        const Eigen::MatrixXd product = part.transpose() * part;
        for (std::size_t a = 0; a < felt.size(); ++a)
            for (std::size_t b = 0; b < felt.size(); ++b)
                out(felt[b], felt[a]) += product(static_cast<Eigen::Index>(b), static_cast<Eigen::Index>(a));
    }
    return out;
}

Eigen::VectorXd best_fit(FitModel& model, Eigen::VectorXd p, const std::vector<std::size_t>& active) {
    if (active.empty()) return p;
    Eigen::VectorXd r = model.residuals(p);
    double damping = 0, left = r.squaredNorm();
    for (int round = 0; round < most_rounds; ++round) {
        const Eigen::MatrixXd j = model.jacobian(p, active), a = squared(j);
        const Eigen::VectorXd g = j.transpose() * r;
        double expected = 0, fall = -1;
        while (fall < 0 && damping < most_damping) {
            Eigen::MatrixXd damped = a;
            damped.diagonal().array() += damping;
            const Eigen::VectorXd step = -damped.llt().solve(g);
            const Eigen::VectorXd there = moved(p, active, step), r_there = model.residuals(there);
            expected = -step.dot(2 * g + a * step);
            const double now = r_there.squaredNorm();
            if (now <= left) {
                fall = left - now;
                p = there, r = r_there, left = now;
                damping = damping > first_damping ? damping / stronger : 0;
            } else {
                if (expected <= enough * left) break;
                damping = damping > 0 ? damping * stronger : first_damping;
            }
        }
        if (fall <= enough * left || expected <= enough * left) break;
    }
    model.set(p);
    return p;
}

Eigen::MatrixXd covariance(const Eigen::MatrixXd& jacobian) {
    return squared(jacobian).llt().solve(Eigen::MatrixXd::Identity(jacobian.cols(), jacobian.cols()));
}

Eigen::MatrixXd covariance(FitModel& model, const Eigen::VectorXd& p, const std::vector<std::size_t>& active) {
    return covariance(model.jacobian(p, active));
}

}  // namespace foretone::learn
