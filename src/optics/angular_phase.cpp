// Azimuth-averaged Henyey–Greenstein scattering.
//
// p(cosΘ) = (1 − g²)/(1 + g² − 2g cosΘ)^{3/2} with cosΘ = µν + √(1−µ²)√(1−ν²) cosφ has the azimuth mean
//     p̄(µ, ν) = (2/π)(1 − g²) E(k)/((A − B)√(A + B)),   A = 1 + g² − 2gµν,  B = 2|g|√(1−µ²)√(1−ν²),  k² = 2B/(A + B),
// E the complete elliptic integral of the second kind, here by the arithmetic–geometric mean (E/K = 1 − Σ2^{i−1}c_i²),
// which converges quadratically and needs no special-function library. A − B ≥ (1 − |g|)² > 0.
//
// The row of a measuring direction is a product integration: the kernel, however peaked, is integrated against the
// polynomials through the streams of each interval, on pieces that shrink threefold towards the peak. A Gauss rule
// would need its nodes to resolve the peak; this only needs them to resolve the light.

#include "angular_phase.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/optics/quadrature.hpp"

namespace foretone::optics::angular_detail {
namespace {

/// Adds ∫ over c in [low, high] of the interval to the row.
class Piece {
public:
    Piece(const Streams& streams, const Interval& interval, double n, double g, double mu)
        : streams_(streams),
          interval_(interval),
          n_(n),
          g_(g),
          mu_(mu),
          rule_(gauss_legendre(10 + interval.last - interval.first, 0, 1)) {
        for (int i = interval.first; i < interval.last; ++i) {
            double product = 1;
            for (int j = interval.first; j < interval.last; ++j) {
                if (j != i) product *= node(i) - node(j);
            }
            scale_.push_back(1 / product);
        }
    }

    void add(double low, double high, ScatterRow& row) const {
        if (high <= low) return;
        for (std::size_t k = 0; k < rule_.x.size(); ++k) {
            const double c = low + (high - low) * rule_.x[k], m = interval_.index;
            const double nu = std::min(1.0, std::sqrt((n_ - m) * (n_ + m) + m * m * c * c) / n_);
            const double weight = 0.5 * (high - low) * rule_.w[k] * m * m * c / (n_ * n_ * nu);  // ½ dν
            const double on = weight * mean_phase(mu_, nu, g_), back = weight * mean_phase(mu_, -nu, g_);
            for (int i = interval_.first; i < interval_.last; ++i) {
                const double l = lagrange(i, c);
                row.forward[static_cast<std::size_t>(i)] += on * l;
                row.backward[static_cast<std::size_t>(i)] += back * l;
            }
        }
    }

private:
    double node(int i) const { return streams_.all[static_cast<std::size_t>(i)].cosine; }

    double lagrange(int i, double c) const {
        double l = scale_[static_cast<std::size_t>(i - interval_.first)];
        for (int j = interval_.first; j < interval_.last; ++j) {
            if (j != i) l *= c - node(j);
        }
        return l;
    }

    const Streams& streams_;
    const Interval& interval_;
    double n_, g_, mu_;
    Nodes rule_;
    std::vector<double> scale_;
};

}  // namespace

double mean_phase(double mu, double nu, double g) {
    const double a = 1 + g * g - 2 * g * mu * nu;
    const double b = 2 * std::abs(g) * std::sqrt((1 - mu) * (1 + mu) * (1 - nu) * (1 + nu));
    double x = 1, y = std::sqrt(std::max(0.0, (a - b) / (a + b)));
    double c_squared = 2 * b / (a + b), power = 0.5, sum = power * c_squared;
    for (int i = 0; i < 60 && c_squared > 1e-34; ++i) {
        const double c = 0.5 * (x - y), mean = 0.5 * (x + y);
        y = std::sqrt(x * y);
        x = mean;
        c_squared = c * c;
        power *= 2;
        sum += power * c_squared;
    }
    return (1 - g * g) * (1 - sum) / (x * (a - b) * std::sqrt(a + b));
}

ScatterRow scatter_row(const Streams& streams, double n, double g, double mu) {
    const auto size = static_cast<std::size_t>(streams.in_medium(n));
    ScatterRow row{std::vector<double>(size, 0), std::vector<double>(size, 0)};
    for (const Interval& interval : streams.intervals) {
        if (static_cast<std::size_t>(interval.last) > size) break;
        const Piece piece(streams, interval, n, g, mu);
        // The peak, ν = µ, in the interval's own cosine; its nearer end if it lies outside.
        const double sine = n * std::sqrt((1 - mu) * (1 + mu)) / interval.index;
        const double there = sine >= 1 ? 0 : std::sqrt((1 - sine) * (1 + sine));
        const double peak = std::clamp(there, interval.low, interval.high);
        double near = 0, far = 1e-6;
        while (near < 1) {
            piece.add(std::max(interval.low, peak - far), peak - near, row);
            piece.add(peak + near, std::min(interval.high, peak + far), row);
            near = far;
            far *= 3;
        }
    }
    return row;
}

}  // namespace foretone::optics::angular_detail
