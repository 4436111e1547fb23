// A rank-1 lattice: point i of N has the coordinates frac(i z_j/N + s_j), z the generating vector, s a shift.
//
// Why a lattice: a color is a smooth function of its figures, and for smooth functions the mean over N lattice points
// is off by about 1/N where plain random draws are off by 1/√N. Why shifted: the unshifted lattice contains the origin,
// whose normal deviate is −∞. Why component by component: it needs no tables of direction numbers, and the vector below
// is checked by building it again. Why weights on pairs: a spread is made of single figures and, less, of pairs; a
// vector that is good for high orders leaves some pairs of its dimensions correlated by a half. Why so few dimensions:
// few points have few generators without a bad pair; beyond, shuffled strata are better.
//
// Normal deviates by the rational functions of AS 241 (Wichura 1988, PPND16: 1e-16 of the deviate) in p − ½ and, in the
// tails, in √(−ln p). Mirror images are one function of opposite signs, so that p and 1 − p give opposite deviates.

#include "foretone/appearance/lattice.hpp"

#include <algorithm>
#include <cmath>
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

// A ratio of two polynomials of degree 7, by rising powers.
struct Ratio {
    std::array<double, 8> above, below;
};

constexpr Ratio middle{
    {3.3871328727963666080e0, 1.3314166789178437745e2, 1.9715909503065514427e3, 1.3731693765509461125e4,
     4.5921953931549871457e4, 6.7265770927008700853e4, 3.3430575583588128105e4, 2.5090809287301226727e3},
    {1, 4.2313330701600911252e1, 6.8718700749205790830e2, 5.3941960214247511077e3, 2.1213794301586595867e4,
     3.9307895800092710610e4, 2.8729085735721942674e4, 5.2264952788528545610e3}};
constexpr Ratio tail{
    {1.42343711074968357734e0, 4.63033784615654529590e0, 5.76949722146069140550e0, 3.64784832476320460504e0,
     1.27045825245236838258e0, 2.41780725177450611770e-1, 2.27238449892691845833e-2, 7.74545014278341407640e-4},
    {1, 2.05319162663775882187e0, 1.67638483018380384940e0, 6.89767334985100004550e-1, 1.48103976427480074590e-1,
     1.51986665636164571966e-2, 5.47593808499534494600e-4, 1.05075007164441684324e-9}};
constexpr Ratio far_tail{
    {6.65790464350110377720e0, 5.46378491116411436990e0, 1.78482653991729133580e0, 2.96560571828504891230e-1,
     2.65321895265761230930e-2, 1.24266094738807843860e-3, 2.71155556874348757815e-5, 2.01033439929228813265e-7},
    {1, 5.99832206555887937690e-1, 1.36929880922735805310e-1, 1.48753612908506148525e-2, 7.86869131145613259100e-4,
     1.84631831751005468180e-5, 1.42151175831644588870e-7, 2.04426310338993978564e-15}};

double ratio(const Ratio& of, double x) {
    double above = 0, below = 0;
    for (std::size_t i = 8; i-- > 0;) above = above * x + of.above[i], below = below * x + of.below[i];
    return above / below;
}

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
    const double q = p - 0.5;
    if (std::abs(q) <= 0.425) return q * ratio(middle, 0.180625 - q * q);
    const double r = std::sqrt(-std::log(std::min(p, 1 - p)));
    const double x = r <= 5 ? ratio(tail, r - 1.6) : ratio(far_tail, r - 5);
    return q < 0 ? -x : x;
}

}  // namespace foretone::appearance
