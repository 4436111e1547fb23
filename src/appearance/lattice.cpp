// A rank-1 lattice: point i of N has the coordinates frac(i z_j/N + s_j), z the generating vector, s a shift.
//
// Why a lattice: a color is a smooth function of its figures, and for smooth functions the mean over N lattice points
// is off by about 1/N where plain random draws are off by 1/√N. Why shifted: the unshifted lattice contains the origin,
// whose normal deviate is −∞. Why component by component: it needs no tables of direction numbers, and the vector below
// is checked by building it again. Why weights on pairs: a spread is made of single figures and, less, of pairs; a
// vector that is good for high orders leaves some pairs of its dimensions correlated by a half. Why so few dimensions:
// few points have few generators without a bad pair; beyond, shuffled strata are better.
//
// Normal deviates: x from erfc by one Halley step on Φ(x) − p from a rational start. For p > ½ the mirror image is
// solved, so that p and 1 − p give opposite deviates and no tail is computed by subtracting from 1.

#include "foretone/appearance/lattice.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"

namespace foretone::appearance {

const std::array<int, lattice_dimensions> lattice_generator = {
    1, 18, 14, 16, 10, 21, 26, 12, 29, 22, 30, 27,
};

std::uint64_t mixed(std::uint64_t a, std::uint64_t b) {
    std::uint64_t x = a + 0x9e3779b97f4a7c15u * (b + 1);
    x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9u;
    x = (x ^ (x >> 27)) * 0x94d049bb133111ebu;
    return x ^ (x >> 31);
}

namespace {

constexpr double lattice_count = static_cast<double>(lattice_points);

double unit(std::uint64_t bits) { return static_cast<double>(bits >> 11) * 0x1p-53; }

}  // namespace

ShiftedLattice::ShiftedLattice(std::size_t dimensions, std::uint64_t seed) : seed_(seed) {
    for (std::size_t d = lattice_dimensions; d < dimensions; ++d) {
        std::vector<std::uint16_t> strata(lattice_points);
        std::iota(strata.begin(), strata.end(), std::uint16_t{0});
        std::mt19937_64 rng(mixed(seed, d));
        // Fisher & Yates; the remainder's bias is 1e-17.
        for (std::size_t i = strata.size() - 1; i > 0; --i) std::swap(strata[i], strata[rng() % (i + 1)]);
        shuffled_.push_back(std::move(strata));
    }
}

double ShiftedLattice::at(std::size_t i, std::size_t dimension, unsigned again) const {
    const double shift = unit(mixed(mixed(seed_, dimension), again));
    std::size_t stratum = 0;
    if (dimension < lattice_dimensions)
        stratum = i * static_cast<std::size_t>(lattice_generator[dimension]) % lattice_points;
    else
        stratum = shuffled_[dimension - lattice_dimensions][i];
    double u = static_cast<double>(stratum) / lattice_count + shift;
    u -= std::floor(u);
    return std::clamp(u, 1e-9, 1 - 1e-9);  // a deviate beyond six standard deviations says nothing about a board
}

double normal_quantile(double p) {
    if (!(p > 0 && p < 1))
        throw std::invalid_argument("normal_quantile: p " + base::shortest(p) + ", not inside 0 to 1");
    if (p > 0.5) return -normal_quantile(1 - p);
    // Hastings' rational start (Abramowitz & Stegun 1964, 26.2.23), off by under 4.5e-4.
    const double t = std::sqrt(-2 * std::log(p));
    const double x =
        -(t - (2.515517 + t * (0.802853 + t * 0.010328)) / (1 + t * (1.432788 + t * (0.189269 + t * 0.001308))));
    const double density = std::exp(-x * x / 2) / std::sqrt(2 * std::numbers::pi);
    const double step = (0.5 * std::erfc(-x / std::numbers::sqrt2) - p) / density;
    return x - step / (1 + x * step / 2);
}

}  // namespace foretone::appearance
