// Quantiles of draws. Symbols: c color of a world z, c₀ of the middle · J slopes · q 90 % quantile of ΔE00 from the
// mean.
//
// Control variate: of the colors' linear part c₀ + J z the quantile q* is known, for it is normal; the worlds drawn
// give it as q₀. What they give of the colors themselves, q, is off much alike: q q*/q₀ is told. Without J's help three
// times the worlds would be needed.
//
// Sampling error: each set of worlds gives a ratio of its own; the standard error of the whole is theirs over the root
// of their number.
//
// Materials' and boards' parts: with c and c′ two boards of one world, ½ E|c − c′|² is the variance that is left when
// the materials are known, averaged over what they may be; the rest of the whole is the materials'.

#include "judged.hpp"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

namespace foretone::appearance {
namespace {
using color::Lab;

// ΔE00 near a color as a quadratic form: its values along the axes and the diagonals between them.
Eigen::Matrix3d metric(const Lab& at) {
    const auto square = [&](const Eigen::Vector3d& v) {
        const double de = color::delta_e_00(at, {at.l + v(0), at.a + v(1), at.b + v(2)});
        return de * de;
    };
    Eigen::Matrix3d g;
    for (int i = 0; i < 3; ++i) g(i, i) = square(Eigen::Vector3d::Unit(i));
    for (int i = 0; i < 3; ++i)
        for (int j = 0; j < i; ++j) {
            const Eigen::Vector3d p = Eigen::Vector3d::Unit(i), q = Eigen::Vector3d::Unit(j);
            g(i, j) = g(j, i) = (square(p + q) - square(p - q)) / 4;
        }
    return g;
}

// The quantile of √(Σ λ_k n_k²), n normal: of 4,096 evenly spread points (the additive recurrence of the plastic
// number's kin for three dimensions).
double normal_radius(const Eigen::Vector3d& lambda) {
    static const auto squares = [] {
        std::vector<Eigen::Vector3d> out;
        constexpr double g = 1.2207440846057596;  // g⁴ = g + 1
        for (int i = 1; i <= 4096; ++i) {
            Eigen::Vector3d n;
            for (int k = 0; k < 3; ++k) {
                double u = 0.5 + i * std::pow(g, -1 - k);
                u = std::clamp(u - std::floor(u), 1e-6, 1 - 1e-6);
                const double z = normal_quantile(u);
                n(k) = z * z;
            }
            out.push_back(n);
        }
        return out;
    }();
    std::vector<double> sums;
    for (const auto& n : squares) sums.push_back(n.dot(lambda));
    return std::sqrt(quantile(std::move(sums), region_share));
}

// The 90 % quantile of what was seen over that of the linear part. Both are put in order, and the logarithm of the
// ratio of equal ranks is fitted by a line over the outer ranks, against the normal deviate of the rank: one draw more
// or less on one side does not decide, and a tail that is longer or shorter than a normal one is a slope, no bias.
double quantile_ratio(std::vector<double> seen, std::vector<double> linear) {
    constexpr double from = 0.7, to = 0.99;
    std::sort(seen.begin(), seen.end());
    std::sort(linear.begin(), linear.end());
    const double at = normal_quantile(region_share), count = static_cast<double>(seen.size());
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        const double share = (static_cast<double>(i) + 0.5) / count;
        if (share < from || share > to) continue;
        if (!(linear[i] > 0) || !(seen[i] > 0)) return 0;
        const double x = normal_quantile(share) - at, y = std::log(seen[i] / linear[i]);
        n += 1, sx += x, sy += y, sxx += x * x, sxy += x * y;
    }
    const double across = n * sxx - sx * sx;
    return across > 0 ? std::exp((sy - (n * sxy - sx * sy) / across * sx) / n) : 0;
}

// Quantile and standard error by the control variate; boards' share of the variance, to first order.
void set_quantiles(Region& region, const Sample& sample, const Eigen::MatrixXd& slopes,
                   const std::vector<Coordinate>& coordinates) {
    if (!(region.de00_90 > 0)) return;
    const Eigen::Matrix3d g = metric(region.mean);
    const Eigen::LLT<Eigen::Matrix3d> llt(g + 1e-9 * g.trace() * Eigen::Matrix3d::Identity());
    const Eigen::MatrixXd j = llt.matrixU() * slopes;  // |j z| is ΔE00 of the linear part
    double boards = 0;
    for (std::size_t c = 0; c < coordinates.size(); ++c)
        if (coordinates[c].origin == Origin::boards) boards += j.col(static_cast<Eigen::Index>(c)).squaredNorm();
    const double whole = j.squaredNorm();
    region.boards_de00 = whole > 0 ? region.rms_de00 * std::sqrt(boards / whole) : 0;
    const Eigen::Matrix3d spread = j * j.transpose();
    const double known = normal_radius(
        Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d>(spread, Eigen::EigenvaluesOnly).eigenvalues().cwiseMax(0.0));
    std::vector<double> ratio, of, linear, all, all_linear;
    for (std::size_t set = 0; set < sample.sets.size(); ++set) {
        of.clear(), linear.clear();
        for (std::size_t i = 0; i < sample.sets[set].size(); ++i) {
            of.push_back(color::delta_e_00(sample.sets[set][i], region.mean));
            const auto& world = *sample.worlds[set][i];
            linear.push_back(
                (j * Eigen::Map<const Eigen::VectorXd>(world.data(), static_cast<Eigen::Index>(world.size()))).norm());
        }
        all.insert(all.end(), of.begin(), of.end());
        all_linear.insert(all_linear.end(), linear.begin(), linear.end());
        if (of.empty()) continue;
        ratio.push_back(quantile_ratio(of, linear));
    }
    const double q = quantile_ratio(std::move(all), std::move(all_linear));
    if (!(q > 0) || !(known > 0)) return;
    region.de00_90 = q * known;
    double squares = 0;
    for (const double r : ratio) squares += (r / q - 1) * (r / q - 1);
    const auto n = static_cast<double>(ratio.size());
    region.de00_90_error = n > 1 ? std::sqrt(squares / (n - 1) / n) : 0;
}

}  // namespace

Draws Sample::all() const {
    Draws out;
    for (const auto& set : sets) out.insert(out.end(), set.begin(), set.end());
    return out;
}

Sample sampled(const std::vector<Set>& sets, std::size_t finish, std::size_t stage, std::size_t light, bool both) {
    Sample out;
    for (const auto& set : sets) {
        out.sets.emplace_back();
        out.worlds.emplace_back();
        for (const auto& one : set.seen) {
            out.sets.back().push_back(one.first[finish][stage][light]);
            out.worlds.back().push_back(&one.world[0]);
            if (!both) continue;
            out.sets.back().push_back(one.on_another[finish][light]);
            out.worlds.back().push_back(&one.world[1]);
        }
    }
    return out;
}

Region region_of(const Sample& sample, const Eigen::MatrixXd& slopes, const std::vector<Coordinate>& coordinates) {
    Region out = region(sample.all());
    set_quantiles(out, sample, slopes, coordinates);
    out.materials_de00 = std::sqrt(std::max(0.0, out.rms_de00 * out.rms_de00 - out.boards_de00 * out.boards_de00));
    return out;
}

void set_boards_share(Region& region, const Draws& draws) {
    double squares = 0;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) {
        const double de = color::delta_e_00(draws[i], draws[i + 1]);
        squares += de * de;
    }
    region.boards_de00 = std::min(region.rms_de00, std::sqrt(squares / static_cast<double>(draws.size())));
    region.materials_de00 = std::sqrt(region.rms_de00 * region.rms_de00 - region.boards_de00 * region.boards_de00);
}

Region boards_alone(const Draws& draws, const Lab& mean) {
    Draws alone;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) {
        const auto &p = draws[i], &q = draws[i + 1];
        const double s = std::sqrt(0.5);
        for (const double side : {s, -s})
            alone.push_back({mean.l + side * (p.l - q.l), mean.a + side * (p.a - q.a), mean.b + side * (p.b - q.b)});
    }
    Region out = region(alone);
    out.boards_de00 = out.rms_de00;
    if (out.de00_90 > 0) {
        std::vector<double> off;
        for (const auto& c : alone) off.push_back(color::delta_e_00(c, out.mean));
        out.de00_90_error = quantile_error(off, region_share, draws_of_a_set) / out.de00_90;
    }
    return out;
}

}  // namespace foretone::appearance
