// The surface fitted to what was published of coated boards.
//
// Symbols: x unknowns, each on the scale on which its prior is normal (mean m, standard deviation p) · d published and
// D(x) predicted ΔE*ab of a board · σ what a difference of two groups of boards is off by when everything is known.
//
//     least of  Σ ((D(x) − d)/σ)² − 2 Σ ln Φ(s Δ(x)/σ) + Σ ((x − m)/p)²,      spread of x: (JᵀJ + diag(1/p²))⁻¹
//
// with s the printed signs of ΔL*, Δa*, Δb* (once for all coats of a board) and J the derivatives of the roots of the
// first two sums' terms.
//
// What a paper does not state is an unknown of that paper, never a choice: its geometry, its film, its coats, its
// instrument, the color of its bare boards. Woods, kinds of finish and laboratories are levels above it. A prediction
// for a paper that was left out carries the priors of that paper's own unknowns and the spread of the others after the
// fit.
//
// Priors. Share of cell wall at the surface: 1 − porosity within a quarter (its meaning; sanding tears and smears).
// From wood to wood a fifth; σ 1.2 and that fifth are where the rows' evidence (the fit's marginal likelihood) is
// largest among 0.1–0.4 and 0.8–1.6. Contact: between a half and nearly all. What stays up: as remembered, 0.70 of wax
// and 0.65 of alkyd varnish, within 0.15. Gardner of alkyds: between 5 (printed, short oil) and 10 (remembered, long
// oil). Films as usual within a quarter; a paper that states its coats within a fifth, one that does not between one
// thin coat and two full ones. Instruments: portable spheres read the specular unless told otherwise (remembered, so
// wide), and a laboratory has one for all its papers.
//
// Tried, and left out as the rows cannot tell (log evidence within 0.3, left-out errors no better): cell wall at the
// surface by another power of 1 − porosity (0.65 ± 0.4 for 1), a common mean of all kinds' contact.

#include "foretone/job/calibration.hpp"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <numbers>
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

Eigen::Vector3d vector_of(const color::Lab& c) { return {c.l, c.a, c.b}; }

// A printed sign, where the model has z standard deviations of it: miss² = −2 ln Φ(z), and its derivative by z.
struct Sign {
    double miss = 0, slope = 0;

    explicit Sign(double z) {
        z = std::max(z, -30.0);
        const double chance = 0.5 * std::erfc(-z / std::numbers::sqrt2);
        miss = std::max(std::sqrt(-2 * std::log(chance)), 1e-6);
        slope = -std::exp(-z * z / 2) * std::numbers::inv_sqrtpi / (std::numbers::sqrt2 * chance * miss);
    }
};

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

    /// Derivatives of a board's ΔL*, Δa*, Δb* (rows) by all unknowns.
    Matrix lab_slopes(const PublishedBoard& board, const Vector& x) const {
        Matrix out = Matrix::Zero(3, x.size());
        const auto here = vector_of(model_.change(board, plain(x)).lab);
        for (Eigen::Index i = 0; i < x.size(); ++i) {
            const auto& u = model_.unknowns()[static_cast<std::size_t>(i)];
            if (!model_.touches(u, board)) continue;
            auto moved = plain(x);
            const double step = 0.05 * u.sd;
            moved[static_cast<std::size_t>(i)] += step;
            out.col(i) = (vector_of(model_.change(board, moved).lab) - here) / step;
        }
        return out;
    }

    /// Of its ΔE*ab.
    Vector slopes(const PublishedBoard& board, const Vector& x) const {
        const auto here = vector_of(model_.change(board, plain(x)).lab);
        return lab_slopes(board, x).transpose() * here / here.norm();
    }

    Fit fit() const {
        Vector x = mean_;
        Matrix normal;
        for (int round = 0; round < 20; ++round) {
            Matrix j;
            const Vector off = misses(x, &j);
            normal = j.transpose() * j;
            normal.diagonal() += weight_;
            const Vector down = j.transpose() * off + weight_.cwiseProduct(x - mean_);
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
    // A paper tells the signs of all its coats at once: they count for the last of them.
    bool last_of_its_coats(const PublishedBoard& board) const {
        return std::none_of(boards_.begin(), boards_.end(), [&](const auto& b) {
            return b.paper == board.paper && b.species == board.species && b.coats > board.coats;
        });
    }

    // What is off, in standard deviations, board by board: its ΔE*ab, then each of its signs that is told.
    Vector misses(const Vector& x, Matrix* slopes = nullptr) const {
        std::vector<double> off;
        std::vector<Vector> rows;
        for (const auto& board : boards_) {
            const Eigen::Vector3d change = vector_of(model_.change(board, plain(x)).lab);
            const Matrix by = slopes ? lab_slopes(board, x) : Matrix::Zero(3, x.size());
            off.push_back((change.norm() - board.de_ab) / row_sd);
            rows.push_back(by.transpose() * change / (change.norm() * row_sd));
            for (std::size_t k = 0; k < board.signs.size(); ++k) {
                if (board.signs[k] == 0 || !last_of_its_coats(board)) continue;
                const auto at = static_cast<Eigen::Index>(k);
                const Sign sign(board.signs[k] * change[at] / row_sd);
                off.push_back(sign.miss);
                rows.push_back(by.row(at).transpose() * (sign.slope * board.signs[k] / row_sd));
            }
        }
        if (slopes) {
            *slopes = Matrix(static_cast<Eigen::Index>(rows.size()), x.size());
            for (std::size_t i = 0; i < rows.size(); ++i)
                slopes->row(static_cast<Eigen::Index>(i)) = rows[i].transpose();
        }
        return Eigen::Map<Vector>(off.data(), static_cast<Eigen::Index>(off.size()));
    }
    double cost(const Vector& x) const { return misses(x).squaredNorm() + weight_.dot((x - mean_).cwiseAbs2()); }

    const PublishedModel& model_;
    PublishedBoards boards_;
    Vector mean_, weight_;
};

bool met(const std::array<int, 3>& stated, const color::Lab& change) {
    const double of[] = {change.l, change.a, change.b};
    for (std::size_t i = 0; i < stated.size(); ++i)
        if (stated[i] * of[i] < 0) return false;
    return true;
}

PredictedBoard predicted(const PublishedModel& model, const Problem& problem, const Fit& fit,
                         const PublishedBoard& board) {
    PredictedBoard out{board, {}, 0, 0, 0, 0, false, false};
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

std::vector<Coverage> coverage(const std::vector<PredictedBoard>& boards) {
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
FittedFigure in_own_unit(const Unknown& u, double after, double after_sd) {
    const auto own = [&](double x, double sd, double& value, double& spread) {
        value = x, spread = sd;
        if (u.what == What::solid || u.what == What::level || u.what == What::film)
            value = std::exp(x), spread = sd * value;
        if (u.what == What::contact || u.what == What::stay)
            value = 1 / (1 + std::exp(-x)), spread = sd * value * (1 - value);
    };
    FittedFigure out;
    out.what = u.what == What::solid     ? "cell wall in the outermost plane over 1 - porosity"
               : u.what == What::level   ? "level_um over the file's"
               : u.what == What::contact ? "contact, " + u.of
               : u.what == What::stay    ? "stay, " + u.of
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
    out.push_back({What::stay, "wax", 0.85, 0.7});           // logit of 0.70 ± 0.15
    out.push_back({What::stay, "oil varnish", 0.62, 0.66});  // of 0.65 ± 0.15
    out.push_back({What::gardner, "wax", 5, 1.5});
    out.push_back({What::gardner, "oil varnish", 6.5, 3});
    std::set<std::string> laboratories, papers, woods;
    for (const auto& b : boards) {
        if (laboratories.insert(b.laboratory).second) out.push_back({What::instrument, b.laboratory, -1.5, 1.5});
        if (papers.insert(b.paper).second) {
            out.push_back({What::geometry, b.paper, 0, 0.5});
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
        out.figures.push_back(in_own_unit(u, fit.x[at], std::sqrt(fit.covariance(at, at))));
    }
    out.solid_share = out.figures.front().after;
    std::string paper;
    Fit without;
    for (const auto& board : all) {
        const Problem problem(model, fitted_without(all, board.paper));
        if (board.paper != paper) without = board.fitted ? problem.fit() : fit;
        paper = board.paper;
        out.boards.push_back(predicted(model, problem, without, board));
    }
    out.coverage = coverage(out.boards);
    return out;
}

}  // namespace foretone::job
