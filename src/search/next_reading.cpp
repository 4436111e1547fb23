// Symbols: f finished color on the next board, y what is read on this one, as vectors of Lab over the draws · Σ their
// covariances · R the readings' own noise.
//   covariance of f once y is known = Σ_ff − Σ_fy (Σ_yy + R)⁻¹ Σ_yf
//
// Exact where colors are linear in what is not known and that is normal, and the best linear guess otherwise: the
// covariances are those of the draws themselves. y and f share a world's materials alone, so hands and boards of either
// are noise to the other, as they are in the shop. ΔE00 is taken as a norm about the mean color: of a factor's columns
// the root of the sum of squares; what is told is the draws' own spread, scaled by how that root shrinks.

#include "foretone/search/next_reading.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace foretone::search {
namespace {
using appearance::Draws;
using color::Lab;

constexpr std::size_t fewest_draws = 100;

Eigen::MatrixXd centred(const Draws& draws) {
    Eigen::MatrixXd m(3, static_cast<Eigen::Index>(draws.size()));
    for (std::size_t i = 0; i < draws.size(); ++i)
        m.col(static_cast<Eigen::Index>(i)) << draws[i].l, draws[i].a, draws[i].b;
    return m.colwise() - m.rowwise().mean().eval();
}

class Account {
public:
    Account(const std::vector<Draws>& candidates, const Draws& finished, double reading_de)
        : noise_(reading_de * reading_de / 3) {
        Draws other;
        for (std::size_t i = 1; i < finished.size(); i += 2) other.push_back(finished[i]);
        const auto f = centred(other);
        const auto count = static_cast<double>(other.size());
        ff_ = f * f.transpose() / count;
        yy_.resize(candidates.size());
        std::vector<Eigen::MatrixXd> y;
        for (const auto& c : candidates) y.push_back(centred(c));
        for (std::size_t i = 0; i < y.size(); ++i) {
            fy_.emplace_back(f * y[i].transpose() / count);
            for (std::size_t j = 0; j < y.size(); ++j) yy_[i].emplace_back(y[i] * y[j].transpose() / count);
        }
        mean_ = appearance::region(finished).mean;
        whole_ = size(ff_);
    }

    /// Share of the spread that is left once these are read.
    double left(const std::vector<std::size_t>& of) const {
        const auto n = static_cast<Eigen::Index>(3 * of.size());
        if (n == 0 || whole_ <= 0) return 1;
        Eigen::MatrixXd y(n, n), fy(3, n);
        for (std::size_t i = 0; i < of.size(); ++i) {
            const auto at = static_cast<Eigen::Index>(3 * i);
            fy.block<3, 3>(0, at) = fy_[of[i]];
            for (std::size_t j = 0; j < of.size(); ++j)
                y.block<3, 3>(at, static_cast<Eigen::Index>(3 * j)) = yy_[of[i]][of[j]];
        }
        // A hundredth of ΔE*ab keeps readings that always agree from being divided by nothing.
        y.diagonal().array() += noise_ + 1e-4;
        return std::min(1.0, size(ff_ - fy * y.ldlt().solve(fy.transpose())) / whole_);
    }

private:
    double size(const Eigen::Matrix3d& covariance) const {
        const Eigen::Matrix3d root =
            Eigen::LLT<Eigen::Matrix3d>(covariance + 1e-12 * Eigen::Matrix3d::Identity()).matrixL();
        double sum = 0;
        for (int k = 0; k < 3; ++k) {
            const double de =
                color::delta_e_00(mean_, {mean_.l + root(0, k), mean_.a + root(1, k), mean_.b + root(2, k)});
            sum += de * de;
        }
        return std::sqrt(sum);
    }

    double noise_, whole_ = 0;
    Eigen::Matrix3d ff_;
    std::vector<Eigen::Matrix3d> fy_;
    std::vector<std::vector<Eigen::Matrix3d>> yy_;
    Lab mean_;
};

}  // namespace

NextReadings next_readings(const std::vector<Draws>& candidates, const Draws& finished, double reading_de) {
    for (const auto& c : candidates)
        if (2 * c.size() != finished.size())
            throw std::invalid_argument("next_readings: " + std::to_string(c.size()) + " draws of a candidate, " +
                                        std::to_string(finished.size()) + " of the finish");
    if (finished.size() < fewest_draws)
        throw std::invalid_argument("next_readings: " + std::to_string(finished.size()) + " draws, fewer than " +
                                    std::to_string(fewest_draws));
    const Account account(candidates, finished, reading_de);
    const double now = appearance::region(finished).rms_de00;
    const auto with = [&](std::vector<std::size_t> of) {
        const double left = account.left(of);
        return NextReading{std::move(of), now * left};
    };
    double boards = 0;
    for (std::size_t i = 0; i + 1 < finished.size(); i += 2)
        boards += std::pow(color::delta_e_00(finished[i], finished[i + 1]), 2);
    NextReadings out{now, std::min(now, std::sqrt(boards / static_cast<double>(finished.size()))), with({}), with({}),
                     with({})};
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < candidates.size(); ++i) {
        all.push_back(i);
        if (auto one = with({i}); one.spread_de00 < out.one.spread_de00) out.one = std::move(one);
        for (std::size_t j = 0; j < i; ++j)
            if (auto two = with({j, i}); two.spread_de00 < out.two.spread_de00) out.two = std::move(two);
    }
    out.all = with(all);
    return out;
}

}  // namespace foretone::search
