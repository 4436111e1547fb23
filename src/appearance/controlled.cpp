// Control variates. Symbols: z coordinates of a world, standard normal · m(z) a move of colors, three numbers, in a
// metric · c + J z its straight part · q(·) a quantile of lengths in the worlds drawn, q*(·) in all worlds.
//
//   q*(m) ≈ q(m) + β (q*(c + J z) − q(c + J z)),    or the same of logarithms
//
// q*(c + J z) is known, for J z is normal. What chance does to the worlds drawn it does to both alike and it cancels;
// what bends stays. β, 0–1, is the slope of the one length on the other, draw by draw: near 1 where colors are nearly
// straight (a third of the worlds then does), less where the straight part says little. (Polynomials fitted to the
// draws were tried: where colors bend most they follow the few outermost worlds, and the error stated is too small.)
//
// Sampling error: each set of worlds gives a correction of its own; the standard error of the whole is theirs over the
// root of their number.

#include "controlled.hpp"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <numbers>

#include "foretone/appearance/lattice.hpp"
#include "foretone/appearance/region.hpp"

namespace foretone::appearance {
namespace {

// The radius within which a normal point in three dimensions lies with probability p, by Newton's method on
//   F(r) = erf(r/√2) − √(2/π) r exp(−r²/2),   F′(r) = √(2/π) r² exp(−r²/2)
double normal_radius(double p) {
    const double root = std::sqrt(2 / std::numbers::pi);
    double r = std::min(1.5, std::cbrt(3 * p / root));  // F is near √(2/π) r³/3 where r is small
    for (int i = 0; i < 60; ++i) {
        const double density = root * r * std::exp(-r * r / 2);
        const double step = (std::erf(r / std::numbers::sqrt2) - density - p) / (density * r);
        r -= std::clamp(step, -0.5, 0.5);
        if (std::abs(step) < 1e-12) break;
    }
    return r;
}

// Normal points in three dimensions: radii of equal shares, directions by the additive recurrence of the plastic
// number. Each stands for its mirror image too.
const std::vector<Eigen::Vector3d>& normal_points() {
    static const auto points = [] {
        constexpr int pairs = 2048;
        constexpr double g = 1.32471795724474602596;  // g³ = g + 1
        std::vector<Eigen::Vector3d> out;
        for (int i = 0; i < pairs; ++i) {
            const double radius = normal_radius((i + 0.5) / pairs);
            const double turn = 2 * std::numbers::pi * std::fmod((i + 1) / g, 1.0);
            const double z = 2 * std::fmod((i + 1) / (g * g), 1.0) - 1, across = std::sqrt(1 - z * z);
            out.emplace_back(radius * across * std::cos(turn), radius * across * std::sin(turn), radius * z);
        }
        return out;
    }();
    return points;
}

// Slope of `seen` on `control`, 0–1.
double slope(const std::vector<double>& seen, const std::vector<double>& control) {
    const auto n = static_cast<double>(seen.size());
    double s = 0, c = 0, sc = 0, cc = 0;
    for (std::size_t i = 0; i < seen.size(); ++i) s += seen[i] / n, c += control[i] / n;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        sc += (seen[i] - s) * (control[i] - c);
        cc += (control[i] - c) * (control[i] - c);
    }
    return cc > 0 ? std::clamp(sc / cc, 0.0, 1.0) : 0;
}

// Puts the values of ranks first … end − 1 where they stand in the sorted row; what lies below or above stays there in
// any order.
void sort_between(std::vector<double>& values, std::size_t first, std::size_t end) {
    const auto from = values.begin() + static_cast<std::ptrdiff_t>(first);
    const auto to = values.begin() + static_cast<std::ptrdiff_t>(end);
    if (from == to) return;
    std::nth_element(values.begin(), from, values.end());
    if (to != values.end()) std::nth_element(from, to, values.end());
    std::sort(from, to);
}

// What the seen ranks are above β times the control's at a share: a line through the ranks from `low` to `high`,
// against the normal deviate of the rank. One draw more or less on one side does not decide, and a tail that is longer
// or shorter is a slope, no bias.
double off_at(double share, double low, double high, double beta, std::vector<double> seen,
              std::vector<double> control) {
    const double at = normal_quantile(share), count = static_cast<double>(seen.size());
    const auto rank = [count](std::size_t i) { return (static_cast<double>(i) + 0.5) / count; };
    std::size_t first = 0, end = seen.size();
    while (first < end && rank(first) < low) ++first;
    while (end > first && rank(end - 1) > high) --end;
    for (auto* values : {&seen, &control}) sort_between(*values, first, end);
    double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0;
    for (std::size_t i = first; i < end; ++i) {
        const double x = normal_quantile(rank(i)) - at, y = seen[i] - beta * control[i];
        n += 1, sx += x, sy += y, sxx += x * x, sxy += x * y;
    }
    const double across = n * sxx - sx * sx;
    return across > 0 ? (sy - (n * sxy - sx * sy) / across * sx) / n : n > 0 ? sy / n : 0;
}

// The quantile `share`, `known` of the control's in all worlds, by a line through the ranks from `low` to `high`; one
// standard error from how far sets differ.
Told compared(double share, double low, double high, double known, const std::vector<double>& seen,
              const std::vector<double>& control, const std::vector<std::size_t>& sets) {
    const double beta = slope(seen, control);
    const double whole = off_at(share, low, high, beta, seen, control);
    double squares = 0, n = 0;
    auto s = seen.begin(), c = control.begin();
    for (const std::size_t size : sets) {
        const auto count = static_cast<std::ptrdiff_t>(size);
        if (size > 0) {
            const double one = off_at(share, low, high, beta, {s, s + count}, {c, c + count});
            squares += (one - whole) * (one - whole);
            ++n;
        }
        s += count, c += count;
    }
    return {beta * known + whole, n > 1 ? std::sqrt(squares / (n - 1) / n) : 0};
}

// Logarithms; what is nothing is as good as a millionth.
std::vector<double> logarithms(std::vector<double> values) {
    for (double& v : values) v = std::log(std::max(v, 1e-6));
    return values;
}

}  // namespace

Control::Control(const Eigen::MatrixXd& slopes, const Eigen::Vector3d& offset, const Eigen::MatrixXd& worlds,
                 const std::vector<std::size_t>& sets)
    : sets_(sets) {
    const Eigen::VectorXd lengths = ((slopes * worlds).colwise() + offset).colwise().norm();
    lengths_.assign(lengths.begin(), lengths.end());
    // J z has the covariance J Jᵀ = U S Uᵀ, as U √S n has.
    const Eigen::JacobiSVD<Eigen::Matrix3d> svd(slopes * slopes.transpose(), Eigen::ComputeFullU);
    const Eigen::Matrix3d root = svd.matrixU() * svd.singularValues().cwiseMax(0.0).cwiseSqrt().asDiagonal();
    everywhere_.reserve(2 * normal_points().size());
    for (const auto& n : normal_points()) {
        const Eigen::Vector3d move = root * n;
        everywhere_.push_back((offset + move).norm());
        everywhere_.push_back((offset - move).norm());
    }
}

double Control::quantile(double share) const { return appearance::quantile(everywhere_, share); }

Told outer_quantile(const std::vector<double>& seen, const Control& control) {
    const double known = std::log(std::max(control.quantile(region_share), 1e-6));
    const auto told =
        compared(region_share, 0.7, 0.99, known, logarithms(seen), logarithms(control.lengths()), control.sets());
    const double value = std::exp(told.value);
    return {value, value * told.error};
}

Told quantile_of(double share, const std::vector<double>& seen, const Control& control) {
    const double low = std::max(0.01, share - 0.15), high = std::min(0.99, share + 0.15);
    const auto told = compared(share, low, high, control.quantile(share), seen, control.lengths(), control.sets());
    return {std::max(0.0, told.value), told.error};
}

}  // namespace foretone::appearance
