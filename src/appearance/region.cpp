// Mean, covariance and region of a cloud of colors.
//
// Covariance about the mean, in two passes: colors differ by a few units around 50, so the one-pass form would lose
// digits. Axes from Jacobi rotations, which keep a symmetric 3 × 3 matrix's small eigenvalues to rounding and never
// give a negative one worth the name. The 90 % quantile of ΔE00 is the draws' own (linear between ranks), not that of a
// normal distribution: the cloud of a strong dye is bent.

#include "foretone/appearance/region.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>

namespace foretone::appearance {
namespace {
using color::Lab;
using Matrix = std::array<std::array<double, 3>, 3>;

std::array<double, 3> off_mean(const Lab& c, const Lab& mean) { return {c.l - mean.l, c.a - mean.a, c.b - mean.b}; }

// One rotation that makes m[p][q] zero; v gathers the rotations.
void rotate(Matrix& m, Matrix& v, std::size_t p, std::size_t q) {
    if (m[p][q] == 0) return;
    const double theta = (m[q][q] - m[p][p]) / (2 * m[p][q]);
    const double t = (theta < 0 ? -1 : 1) / (std::abs(theta) + std::sqrt(theta * theta + 1));
    const double c = 1 / std::sqrt(t * t + 1), s = t * c;
    for (std::size_t k = 0; k < 3; ++k) {
        const double kp = m[k][p], kq = m[k][q];
        m[k][p] = c * kp - s * kq;
        m[k][q] = s * kp + c * kq;
    }
    for (std::size_t k = 0; k < 3; ++k) {
        const double pk = m[p][k], qk = m[q][k];
        m[p][k] = c * pk - s * qk;
        m[q][k] = s * pk + c * qk;
        const double vp = v[k][p], vq = v[k][q];
        v[k][p] = c * vp - s * vq;
        v[k][q] = s * vp + c * vq;
    }
    m[p][q] = m[q][p] = 0;
}

// The sign that makes the largest component positive.
void turn_up(std::array<double, 3>& d) {
    const auto most =
        std::max_element(d.begin(), d.end(), [](double a, double b) { return std::abs(a) < std::abs(b); });
    if (*most < 0)
        for (double& v : d) v = -v;
}

std::array<double, 3> cross(const std::array<double, 3>& p, const std::array<double, 3>& q) {
    std::array<double, 3> c{p[1] * q[2] - p[2] * q[1], p[2] * q[0] - p[0] * q[2], p[0] * q[1] - p[1] * q[0]};
    turn_up(c);
    return c;
}

// The directions of axes too short to be seen are rounding: another machine's would be others. They are none, and what
// completes the frame follows from the axes that are there.
void complete(std::array<HalfAxis, 3>& axes) {
    for (auto& a : axes)
        if (a.length < shortest_axis) a.length = 0;
    if (axes[0].length == 0) {
        for (std::size_t i = 0; i < 3; ++i)
            for (std::size_t k = 0; k < 3; ++k) axes[i].direction[k] = i == k ? 1 : 0;
        return;
    }
    const auto& first = axes[0].direction;
    if (axes[1].length == 0) {  // across the first axis, near the coordinate that has least of it
        std::size_t least = 0;
        for (std::size_t k = 1; k < 3; ++k)
            if (std::abs(first[k]) < std::abs(first[least])) least = k;
        const double norm = std::sqrt(1 - first[least] * first[least]);
        for (std::size_t k = 0; k < 3; ++k)
            axes[1].direction[k] = ((k == least ? 1 : 0) - first[least] * first[k]) / norm;
        turn_up(axes[1].direction);
    }
    if (axes[2].length == 0) axes[2].direction = cross(first, axes[1].direction);
}

std::array<HalfAxis, 3> half_axes(Matrix m) {
    Matrix v{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}};
    for (int sweep = 0; sweep < 12; ++sweep) {
        rotate(m, v, 0, 1);
        rotate(m, v, 0, 2);
        rotate(m, v, 1, 2);
    }
    std::array<HalfAxis, 3> out;
    for (std::size_t i = 0; i < 3; ++i) {
        out[i].length = region_factor * std::sqrt(std::max(0.0, m[i][i]));
        std::size_t most = 0;
        for (std::size_t k = 1; k < 3; ++k)
            if (std::abs(v[k][i]) > std::abs(v[most][i])) most = k;
        for (std::size_t k = 0; k < 3; ++k) out[i].direction[k] = v[most][i] < 0 ? -v[k][i] : v[k][i];
    }
    std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.length > b.length; });
    complete(out);
    return out;
}

}  // namespace

double quantile(std::vector<double> values, double share) {
    if (values.empty()) throw std::invalid_argument("quantile: no values");
    const double rank =
        std::clamp(share * static_cast<double>(values.size()) - 0.5, 0.0, static_cast<double>(values.size() - 1));
    const auto below = values.begin() + static_cast<std::ptrdiff_t>(rank);
    std::nth_element(values.begin(), below, values.end());
    const double low = *below, high = below + 1 == values.end() ? low : *std::min_element(below + 1, values.end());
    return low + (rank - std::floor(rank)) * (high - low);
}

Region region(const std::vector<Lab>& colors, std::vector<double>* off) {
    if (colors.size() < 2)
        throw std::invalid_argument("region: " + std::to_string(colors.size()) + " colors, not two or more");
    const double count = static_cast<double>(colors.size());
    Region out;
    const Lab& first = colors.front();  // the mean of equal colors is that color, to the bit
    for (const auto& c : colors) {
        out.mean.l += c.l - first.l;
        out.mean.a += c.a - first.a;
        out.mean.b += c.b - first.b;
    }
    out.mean = {first.l + out.mean.l / count, first.a + out.mean.a / count, first.b + out.mean.b / count};
    std::vector<double> de;
    double sum = 0;
    for (const auto& c : colors) {
        const auto d = off_mean(c, out.mean);
        for (std::size_t i = 0; i < 3; ++i)
            for (std::size_t k = 0; k < 3; ++k) out.covariance[i][k] += d[i] * d[k] / (count - 1);
        de.push_back(color::delta_e_00(c, out.mean));
        sum += de.back() * de.back();
    }
    out.rms_de00 = std::sqrt(sum / count);
    if (off) *off = de;
    out.de00_90 = quantile(std::move(de), region_share);
    out.axes = half_axes(out.covariance);
    return out;
}

std::vector<Lab> plausible(const std::vector<Lab>& colors, const Region& of, std::size_t count) {
    if (count == 0) throw std::invalid_argument("plausible: count 0, not 1 or more");
    std::vector<Lab> inside;
    for (const auto& c : colors)
        if (color::delta_e_00(c, of.mean) <= of.de00_90) inside.push_back(c);
    std::stable_sort(inside.begin(), inside.end(), [](const Lab& p, const Lab& q) { return p.l > q.l; });
    std::vector<Lab> out;
    const std::size_t n = std::min(count, inside.size());
    for (std::size_t i = 0; i < n; ++i)
        out.push_back(inside[n == 1 ? inside.size() / 2 : i * (inside.size() - 1) / (n - 1)]);
    return out;
}

}  // namespace foretone::appearance
