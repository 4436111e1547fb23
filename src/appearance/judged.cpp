// Regions and quantiles of draws. Symbols: c, c′ colors of two boards of one world · J slopes · G the metric of ΔE00 at
// the mean, |v|² = vᵀ G v for a small move v. Quantiles are corrected by a control variate (controlled.hpp) of the
// moves in that metric.
//
// Materials' and boards' parts: ½ E|c − c′|² is the variance that is left when the materials are known, averaged over
// what they may be; the rest of the whole is the materials'.

#include "judged.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "controlled.hpp"

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

// Factor R with |R v|² = vᵀ G v: the length of a small move v in ΔE00.
Eigen::Matrix3d lengths_at(const Lab& at) {
    const Eigen::Matrix3d g = metric(at);
    const Eigen::LLT<Eigen::Matrix3d> llt(g + 1e-9 * g.trace() * Eigen::Matrix3d::Identity());
    return llt.matrixU();
}

Eigen::Vector3d move(const Lab& from, const Lab& to) { return {to.l - from.l, to.a - from.a, to.b - from.b}; }

// What slopes that are not nothing tell in place of what was counted.
void set_quantile(Region& region, const Told& told) {
    if (!(told.value > 0)) return;
    region.de00_90 = told.value;
    region.de00_90_error = told.error / told.value;
}

// Only what boards do of it.
Eigen::MatrixXd of_boards(Eigen::MatrixXd slopes, const std::vector<Coordinate>& coordinates) {
    for (std::size_t c = 0; c < coordinates.size(); ++c)
        if (coordinates[c].origin != Origin::boards) slopes.col(static_cast<Eigen::Index>(c)).setZero();
    return slopes;
}

}  // namespace

Worlds::Worlds(const std::vector<Set>& sets, std::size_t coordinates) {
    std::size_t count = 0;
    for (const auto& set : sets) {
        sizes.push_back(set.seen.size());
        count += set.seen.size();
    }
    const auto rows = static_cast<Eigen::Index>(coordinates), columns = static_cast<Eigen::Index>(count);
    first.resize(rows, columns), both.resize(rows, 2 * columns), apart.resize(rows, 2 * columns);
    Eigen::Index i = 0;
    for (const auto& set : sets)
        for (const auto& one : set.seen) {
            const Eigen::Map<const Eigen::VectorXd> p(one.world[0].data(), rows), q(one.world[1].data(), rows);
            first.col(i) = both.col(2 * i) = p;
            both.col(2 * i + 1) = q;
            apart.col(2 * i) = (p - q) * std::sqrt(0.5);
            apart.col(2 * i + 1) = -apart.col(2 * i);
            ++i;
        }
    mean = both.rowwise().mean();
    for (const std::size_t size : sizes) double_sizes.push_back(2 * size);
}

Draws drawn(const std::vector<Set>& sets, std::size_t finish, std::size_t stage, std::size_t light, bool both) {
    Draws out;
    for (const auto& set : sets)
        for (const auto& one : set.seen) {
            out.push_back(one.first[finish][stage][light]);
            if (both) out.push_back(one.on_another[finish][light]);
        }
    return out;
}

Region region_of(const Draws& draws, const Worlds& worlds, bool both, const Eigen::MatrixXd& slopes,
                 const std::vector<Coordinate>& coordinates) {
    std::vector<double> off;
    Region out = region(draws, &off);
    if (out.de00_90 > 0) {
        const Eigen::MatrixXd j = lengths_at(out.mean) * slopes;
        if (const double whole = j.squaredNorm(); whole > 0) {
            const Control control(j, Eigen::Vector3d::Zero(), both ? worlds.both : worlds.first,
                                  both ? worlds.double_sizes : worlds.sizes);
            set_quantile(out, outer_quantile(off, control));
            out.boards_de00 = out.rms_de00 * std::sqrt(of_boards(j, coordinates).squaredNorm() / whole);
        }
    }
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

Region boards_alone(const Draws& draws, const Lab& mean, const Worlds& worlds, const Eigen::MatrixXd& slopes,
                    const std::vector<Coordinate>& coordinates) {
    Draws alone;
    for (std::size_t i = 0; i + 1 < draws.size(); i += 2) {
        const auto &p = draws[i], &q = draws[i + 1];
        const double s = std::sqrt(0.5);
        for (const double side : {s, -s})
            alone.push_back({mean.l + side * (p.l - q.l), mean.a + side * (p.a - q.a), mean.b + side * (p.b - q.b)});
    }
    std::vector<double> off;
    Region out = region(alone, &off);
    out.boards_de00 = out.rms_de00;
    if (!(out.de00_90 > 0)) return out;
    const Eigen::Matrix3d length = lengths_at(out.mean);
    const Eigen::MatrixXd j = of_boards(length * slopes, coordinates);
    const Control control(j, Eigen::Vector3d::Zero(), worlds.apart, worlds.double_sizes);
    if (j.squaredNorm() > 0) set_quantile(out, outer_quantile(off, control));
    return out;
}

DifferenceSpread difference_of(const Draws& from, const Draws& to, const Lab& about, const Worlds& worlds,
                               const Eigen::MatrixXd& slopes) {
    std::vector<double> de;
    DifferenceSpread out = difference_spread(from, to, &de);
    if (!(out.high_de00 > 0)) return out;
    const Eigen::Matrix3d length = lengths_at(about);
    Eigen::Vector3d mean = Eigen::Vector3d::Zero();
    for (std::size_t i = 0; i < from.size(); ++i)
        mean += length * move(from[i], to[i]) / static_cast<double>(from.size());
    const Eigen::MatrixXd j = length * slopes;
    const Control control(j, mean - j * worlds.mean, worlds.both, worlds.double_sizes);
    constexpr double side = (1 - region_share) / 2;
    const Told low = quantile_of(side, de, control);
    const Told high = quantile_of(1 - side, de, control);
    out.low_de00 = std::min(low.value, high.value), out.high_de00 = high.value;
    out.sampling_error = out.high_de00 > 0 ? std::max(low.error, high.error) / out.high_de00 : 0;
    return out;
}

}  // namespace foretone::appearance
