// The surface fitted to what was published of coated boards.
//
// Symbols: x unknowns, each on the scale on which its prior is normal (mean m, standard deviation p) · d published and
// D(x) predicted ΔE*ab of a board · σ what a difference of two groups of boards is off by when everything is known.
//
//     least of  Σ ((D(x) − d)/σ)² + Σ ((x − m)/p)²,      spread of x: (JᵀJ + diag(1/p²))⁻¹,  J = ∂D/∂x /σ
//
// What a paper does not state is an unknown of that paper, never a choice: its geometry, its film, its coats, its
// instrument, the color of its bare boards. Woods and kinds of finish are levels above it. A prediction for a paper
// that was left out carries the priors of that paper's own unknowns and the spread of the others after the fit.
//
// Priors. Share of cell wall at the surface: 1 − porosity within a quarter (its meaning; sanding tears and smears).
// From wood to wood a fifth; σ 1.2 and that fifth are where the rows' evidence (the fit's marginal likelihood) is
// largest among 0.1–0.4 and 0.8–1.6. Contact: between a half and nearly all. Gardner of alkyds: between 5 (printed,
// short oil) and 10 (remembered, long oil). Films as usual within a quarter; a paper that states its coats within a
// fifth, one that does not between one thin coat and two full ones.

#include "foretone/job/calibration.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <set>

#include "published_model.hpp"

namespace foretone::job {
namespace {
using What = Unknown::What;
using PublishedBoards = std::vector<PublishedBoard>;
using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;

constexpr double row_sd = 1.2;          // σ, ΔE*ab
constexpr double two_sided_90 = 1.645;  // normal quantile of 0.95

std::vector<double> plain(const Vector& v) { return {v.data(), v.data() + v.size()}; }

struct Fit {
    Vector x;
    Matrix covariance;
};

class Problem {
public:
    Problem(const PublishedModel& model, const PublishedBoards& boards) : model_(model), boards_(boards) {
        const auto& u = model.unknowns();
        mean_ = Vector(static_cast<Eigen::Index>(u.size()));
        weight_ = mean_;
        for (std::size_t i = 0; i < u.size(); ++i) {
            mean_[static_cast<Eigen::Index>(i)] = u[i].mean;
            weight_[static_cast<Eigen::Index>(i)] = 1 / (u[i].sd * u[i].sd);
        }
    }

    /// Derivatives of a board's ΔE*ab by all unknowns.
    Vector slopes(const PublishedBoard& board, const Vector& x) const {
        Vector out = Vector::Zero(x.size());
        const double here = model_.change(board, plain(x)).de_ab;
        for (Eigen::Index i = 0; i < x.size(); ++i) {
            const auto& u = model_.unknowns()[static_cast<std::size_t>(i)];
            if (!model_.touches(u, board)) continue;
            auto moved = plain(x);
            const double step = 0.05 * u.sd;
            moved[static_cast<std::size_t>(i)] += step;
            out[i] = (model_.change(board, moved).de_ab - here) / step;
        }
        return out;
    }

    Fit fit() const {
        Vector x = mean_;
        Matrix normal;
        for (int round = 0; round < 20; ++round) {
            Matrix j(static_cast<Eigen::Index>(boards_.size()), x.size());
            for (std::size_t k = 0; k < boards_.size(); ++k)
                j.row(static_cast<Eigen::Index>(k)) = slopes(boards_[k], x).transpose() / row_sd;
            normal = j.transpose() * j;
            normal.diagonal() += weight_;
            const Vector down = j.transpose() * misses(x) + weight_.cwiseProduct(x - mean_);
            const Vector move = normal.ldlt().solve(down);
            const double at = cost(x);
            double share = 1;
            while (share > 1e-3 && cost(x - share * move) > at) share /= 2;
            x -= share * move;
            if (share * move.norm() < 1e-3) break;
        }
        return {x, normal.inverse()};
    }

private:
    Vector misses(const Vector& x) const {
        Vector out(static_cast<Eigen::Index>(boards_.size()));
        for (std::size_t k = 0; k < boards_.size(); ++k)
            out[static_cast<Eigen::Index>(k)] = (model_.change(boards_[k], plain(x)).de_ab - boards_[k].de_ab) / row_sd;
        return out;
    }
    double cost(const Vector& x) const { return misses(x).squaredNorm() + weight_.dot((x - mean_).cwiseAbs2()); }

    const PublishedModel& model_;
    PublishedBoards boards_;
    Vector mean_, weight_;
};

bool met(const std::array<int, 3>& told, const color::Lab& change) {
    const double of[] = {change.l, change.a, change.b};
    for (std::size_t i = 0; i < told.size(); ++i)
        if (told[i] * of[i] < 0) return false;
    return true;
}

JudgedBoard judged(const PublishedModel& model, const Problem& problem, const Fit& fit, const PublishedBoard& board) {
    JudgedBoard out{board, {}, 0, 0, 0, 0, false, false};
    const auto change = model.change(board, plain(fit.x));
    const Vector slope = problem.slopes(board, fit.x);
    out.change = change.lab;
    out.de_ab = change.de_ab;
    out.sd = std::sqrt(slope.dot(fit.covariance * slope) + row_sd * row_sd);
    out.low = std::max(0.0, out.de_ab - two_sided_90 * out.sd);
    out.high = out.de_ab + two_sided_90 * out.sd;
    out.inside = board.de_ab >= out.low && board.de_ab <= out.high;
    out.signs_met = met(board.signs, change.lab);
    return out;
}

PublishedBoards fitted_without(const PublishedBoards& all, const std::string& paper) {
    PublishedBoards out;
    std::copy_if(all.begin(), all.end(), std::back_inserter(out),
                 [&](const auto& b) { return b.fitted && b.paper != paper; });
    return out;
}

std::vector<Coverage> coverage(const std::vector<JudgedBoard>& boards) {
    std::vector<Coverage> out;
    for (const auto& b : boards) {
        auto at = std::find_if(out.begin(), out.end(), [&](const auto& c) { return c.kind == b.board.kind; });
        if (at == out.end()) at = out.insert(at, {b.board.kind, 0, 0, 0, 0});
        const double off = b.de_ab - b.board.de_ab;
        ++at->rows;
        at->inside += b.inside;
        at->bias += off;
        at->rms += off * off;
    }
    for (auto& c : out) {
        c.bias /= c.rows;
        c.rms = std::sqrt(c.rms / c.rows);
    }
    return out;
}

// An unknown in its own unit, with its spread.
FittedFigure told(const Unknown& u, double after, double after_sd) {
    const auto own = [&](double x, double sd, double& value, double& spread) {
        value = x, spread = sd;
        if (u.what == What::solid || u.what == What::level || u.what == What::film)
            value = std::exp(x), spread = sd * value;
        if (u.what == What::contact) value = 1 / (1 + std::exp(-x)), spread = sd * value * (1 - value);
    };
    FittedFigure out;
    out.what = u.what == What::solid     ? "cell wall in the outermost plane over 1 - porosity"
               : u.what == What::level   ? "level_um over the file's"
               : u.what == What::contact ? "contact, " + u.of
               : u.what == What::gardner ? "gardner, " + u.of
                                         : "wet film over the file's, " + u.of;
    own(u.mean, u.sd, out.before, out.before_sd);
    own(after, after_sd, out.after, out.after_sd);
    return out;
}

}  // namespace

std::vector<Unknown> unknowns_of(const PublishedBoards& boards) {
    std::vector<Unknown> out = {{What::solid, "", 0, 0.3}, {What::level, "", 0, 0.5}};
    for (const char* kind : {"wax", "oil varnish"}) {
        out.push_back({What::contact, kind, 1.4, 1.2});
        out.push_back({What::film, kind, 0, 0.3});
    }
    out.push_back({What::gardner, "wax", 5, 1.5});
    out.push_back({What::gardner, "oil varnish", 6.5, 3});
    std::set<std::string> papers, woods;
    for (const auto& b : boards) {
        if (papers.insert(b.paper).second) {
            out.push_back({What::geometry, b.paper, 0, 1.5});
            out.push_back({What::paper_film, b.paper, b.coats_stated ? 0 : -0.5, b.coats_stated ? 0.2 : 0.7});
            out.push_back({What::change, b.paper, 0, 0.1});
        }
        if (!woods.insert(b.species).second) continue;
        out.push_back({What::wood_solid, b.species, 0, 0.2});
        out.push_back({What::bare_l, b.species, 0, b.bare_sd[0]});
        out.push_back({What::bare_a, b.species, 0, b.bare_sd[1]});
        out.push_back({What::bare_b, b.species, 0, b.bare_sd[2]});
    }
    return out;
}

Calibration calibrate(const scene::Library& library) {
    const PublishedBoards all = published_boards();
    const PublishedModel model(library, unknowns_of(all));
    Calibration out;
    const Fit fit = Problem(model, fitted_without(all, "")).fit();
    for (std::size_t i = 0; i < model.unknowns().size(); ++i) {
        const auto& u = model.unknowns()[i];
        if (u.what > What::film || u.what == What::wood_solid) continue;
        const auto at = static_cast<Eigen::Index>(i);
        out.figures.push_back(told(u, fit.x[at], std::sqrt(fit.covariance(at, at))));
    }
    out.solid_share = out.figures.front().after;
    std::string paper;
    Fit without;
    for (const auto& board : all) {
        const Problem problem(model, fitted_without(all, board.paper));
        if (board.paper != paper) without = board.fitted ? problem.fit() : fit;
        paper = board.paper;
        out.boards.push_back(judged(model, problem, without, board));
    }
    out.coverage = coverage(out.boards);
    return out;
}

}  // namespace foretone::job
