// Levenberg's method on the normal equations. Symbols: r residuals · J their Jacobian · A = JᵀJ · x unknowns · δ step ·
// µ damping.
//   (A + µ) δ = −Jᵀ r,   expected fall of |r|²:  −δᵀ(2 Jᵀr + Aδ)
// The prior's rows of J are those of the identity, so that A is 1 or more in every direction, all unknowns have one
// unit and one µ serves them all. Spectra of three boards make J some nine hundred rows of four hundred columns, but
// places and instruments are felt by their own reading alone: A is summed over few rows at a time, by the columns that
// are not nothing there. It loses no digit that a fit needs (A is below 1e7). The first try of each round is the whole
// step, µ = 0, as soon as the last one went well.
//
// Dyes that nearly drown a wood make a long valley that bends: straight steps, however damped, creep along it. With r″
// the second derivative of r along δ, from one more look at a tenth of it, the step is carried on by half of
//   (A + µ) δ₂ = −Jᵀ r″
// (Transtrum & Sethna 2012), which follows the bend: ten rounds for thirty-five.
//
// A figure that comes to the end of what it can be stays there, and the others are solved for with that known: beyond
// it nothing moves, and steps that count on it lead nowhere.

#include "least_squares.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <utility>

namespace foretone::learn {
namespace {

constexpr int most_rounds = 40;
constexpr double enough = 1e-6;  // of |r|²: what a round must bring for another one to be worth it
constexpr double first_damping = 1, stronger = 10, most_damping = 1e8;
constexpr double bend_share = 0.1;  // of a step, at which its bend is seen
constexpr double most_turn = 0.75;  // of a step: a longer turn is no correction of it

struct Tried {
    Eigen::VectorXd p, r;
    double left = 0;
};

class Search {
public:
    Search(FitModel& model, Eigen::VectorXd p, const std::vector<std::size_t>& active)
        : model_(model), active_(active), at_(look_at(std::move(p))) {}

    /// One round; whether another one is worth it.
    bool round() {
        j_ = model_.jacobian(at_.p, active_);
        a_ = squared(j_);
        const Eigen::VectorXd g = j_.transpose() * at_.r;
        double expected = 0;
        while (damping_ < most_damping) {
            const Eigen::VectorXd step = whole_step(g);
            expected = -step.dot(2 * g + a_ * step);
            Tried there = tried(step);
            if (there.left <= at_.left) {
                const double fall = at_.left - there.left;
                at_ = std::move(there);
                damping_ = damping_ > first_damping ? damping_ / stronger : 0;
                return fall > enough * at_.left && expected > enough * at_.left;
            }
            if (expected <= enough * at_.left) return false;
            damping_ = damping_ > 0 ? damping_ * stronger : first_damping;
        }
        return false;
    }

    const Eigen::VectorXd& p() const { return at_.p; }

private:
    Tried look_at(Eigen::VectorXd p) const {
        Tried out{std::move(p), {}, 0};
        out.r = model_.residuals(out.p);
        out.left = out.r.squaredNorm();
        return out;
    }

    Eigen::VectorXd moved(Eigen::VectorXd p, const Eigen::VectorXd& step) const {
        for (std::size_t a = 0; a < active_.size(); ++a) {
            const auto k = static_cast<Eigen::Index>(active_[a]);
            const auto& u = model_.unknowns().all()[active_[a]];
            p(k) = std::clamp(p(k) + step(static_cast<Eigen::Index>(a)), u.lowest(), u.highest());
        }
        return p;
    }

    // Solves (A + µ) δ = −g for the unknowns that are free; the others go to their ends.
    Eigen::VectorXd whole_step(const Eigen::VectorXd& g) {
        const auto n = g.size();
        ended_.assign(static_cast<std::size_t>(n), false);
        Eigen::VectorXd step = Eigen::VectorXd::Zero(n);
        for (bool more = true; more;) {
            Eigen::MatrixXd damped = a_;
            damped.diagonal().array() += damping_;
            Eigen::VectorXd right = -g;
            for (Eigen::Index k = 0; k < n; ++k)
                if (ended_[static_cast<std::size_t>(k)]) right -= step(k) * a_.col(k);
            for (Eigen::Index k = 0; k < n; ++k) {
                if (!ended_[static_cast<std::size_t>(k)]) continue;
                damped.row(k).setZero(), damped.col(k).setZero();
                damped(k, k) = 1;
                right(k) = step(k);
            }
            factor_.compute(damped);
            step = factor_.solve(right);
            more = false;
            for (Eigen::Index k = 0; k < n; ++k) {
                const std::size_t unknown = active_[static_cast<std::size_t>(k)];
                const auto& u = model_.unknowns().all()[unknown];
                const double now = at_.p(static_cast<Eigen::Index>(unknown));
                const double ends = std::clamp(now + step(k), u.lowest(), u.highest()) - now;
                if (ended_[static_cast<std::size_t>(k)] || ends == step(k) || now + step(k) == now + ends) continue;
                ended_[static_cast<std::size_t>(k)] = more = true;
                step(k) = ends;
            }
        }
        return step;
    }

    // The step, or the step with its bend where that brings more.
    Tried tried(const Eigen::VectorXd& step) const {
        Tried straight = look_at(moved(at_.p, step));
        Eigen::VectorXd bend =
            j_.transpose() * (model_.residuals(moved(at_.p, bend_share * step)) - at_.r - bend_share * (j_ * step));
        for (std::size_t k = 0; k < ended_.size(); ++k)
            if (ended_[k]) bend(static_cast<Eigen::Index>(k)) = 0;
        const Eigen::VectorXd turn = -factor_.solve(bend) / (bend_share * bend_share);
        if (!(turn.norm() <= most_turn * step.norm())) return straight;
        Tried bent = look_at(moved(straight.p, turn));
        return bent.left < straight.left ? bent : straight;
    }

    FitModel& model_;
    const std::vector<std::size_t>& active_;
    Tried at_;
    double damping_ = 0;
    Eigen::MatrixXd j_, a_;
    Eigen::LLT<Eigen::MatrixXd> factor_;
    std::vector<bool> ended_;  // of active: at an end, and would go on
};

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
    Search search(model, std::move(p), active);
    for (int round = 0; round < most_rounds && search.round(); ++round) {}
    model.set(search.p());
    return search.p();
}

Eigen::MatrixXd covariance(const Eigen::MatrixXd& jacobian) {
    return squared(jacobian).llt().solve(Eigen::MatrixXd::Identity(jacobian.cols(), jacobian.cols()));
}

Eigen::MatrixXd covariance(FitModel& model, const Eigen::VectorXd& p, const std::vector<std::size_t>& active) {
    return covariance(model.jacobian(p, active));
}

}  // namespace foretone::learn
