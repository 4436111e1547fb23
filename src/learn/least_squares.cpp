// Levenberg's method on the normal equations. Symbols: r residuals · J their Jacobian · A = JᵀJ · x unknowns · δ step · µ
// damping.
//   (A + µ) δ = −Jᵀ r,   expected fall of |r|²:  −δᵀ(2 Jᵀr + Aδ)
// The prior's rows of J are those of the identity, so that A is 1 or more in every direction, all unknowns have one unit
// and one µ serves them all. Spectra of three boards make J some nine hundred rows of four hundred columns, but places
// and instruments are felt by their own reading alone: A is summed over few rows at a time, by the columns that are not
// nothing there. It loses no digit that a fit needs (A is below 1e7).
// The first try of each round is the whole step, µ = 0, as soon as the last one went well.
//
// Dyes that nearly drown a wood make a long valley that bends: straight steps, however damped, creep along it. With r″
// the second derivative of r along δ, from one more look at a tenth of it, the step is carried on by half of
//   (A + µ) δ₂ = −Jᵀ r″
// (Transtrum & Sethna 2012), which follows the bend: ten rounds for thirty-five.

#include "least_squares.hpp"

#include <Eigen/Cholesky>
#include <algorithm>

namespace foretone::learn {
namespace {

constexpr int most_rounds = 40;
constexpr double enough = 1e-6;  // of |r|²: what a round must bring for another one to be worth it
constexpr double first_damping = 1, stronger = 10, most_damping = 1e8;
constexpr double bend_share = 0.1;  // of a step, at which its bend is seen
constexpr double most_turn = 0.75;  // of a step: a longer turn is no correction of it

Eigen::VectorXd moved(Eigen::VectorXd p, const std::vector<std::size_t>& active, const Eigen::VectorXd& step) {
    for (std::size_t a = 0; a < active.size(); ++a)
        p(static_cast<Eigen::Index>(active[a])) += step(static_cast<Eigen::Index>(a));
    return p;
}

struct Tried {
    Eigen::VectorXd p, r;
    double left = 0;
};

Tried look_at(FitModel& model, const Eigen::VectorXd& p) {
    Tried out{p, model.residuals(p), 0};
    out.left = out.r.squaredNorm();
    return out;
}

// The step, or the step with its bend where that brings more.
Tried tried(FitModel& model, const Eigen::VectorXd& p, const std::vector<std::size_t>& active, const Eigen::MatrixXd& j,
            const Eigen::VectorXd& r, const Eigen::LLT<Eigen::MatrixXd>& factor, const Eigen::VectorXd& step) {
    const Tried straight = look_at(model, moved(p, active, step));
    const Eigen::VectorXd part = model.residuals(moved(p, active, bend_share * step)) - r - bend_share * (j * step);
    const Eigen::VectorXd turn = -factor.solve(j.transpose() * part) / (bend_share * bend_share);
    if (!(turn.norm() <= most_turn * step.norm())) return straight;
    Tried bent = look_at(model, moved(straight.p, active, turn));
    return bent.left < straight.left ? bent : straight;
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
            const Eigen::LLT<Eigen::MatrixXd> factor(damped);
            const Eigen::VectorXd step = -factor.solve(g);
            expected = -step.dot(2 * g + a * step);
            const Tried there = tried(model, p, active, j, r, factor, step);
            if (there.left <= left) {
                fall = left - there.left;
                p = there.p, r = there.r, left = there.left;
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
