#include "foretone/appearance/lattice.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <limits>
#include <set>
#include <vector>

#include "support/tolerance.hpp"

using namespace foretone::appearance;
using namespace foretone::test;

namespace {
constexpr int n = static_cast<int>(lattice_points);
}

TEST_CASE("the lattice's vector is what building it component by component gives") {
    // Squared worst-case error of a lattice in the Korobov space of smoothness 1 (Sloan & Reztsov 2002), pairs of
    // dimensions alone: 1/N Σ_i Σ_{j<k} ω(i z_j/N) ω(i z_k/N), ω(x) = 2π² B₂(x), B₂(x) = x² − x + 1/6. Each component
    // in turn makes it least.
    std::vector<double> omega, before(lattice_points, 0.0);
    for (int k = 0; k < n; ++k) {
        const double x = static_cast<double>(k) / n;
        omega.push_back(2 * std::numbers::pi * std::numbers::pi * (x * x - x + 1.0 / 6));
    }
    std::vector<int> built;
    std::set<int> taken;
    for (std::size_t j = 0; j < lattice_dimensions; ++j) {
        int best = 1;
        double least = std::numeric_limits<double>::infinity();
        for (int z = 1; z <= (n - 1) / 2 && j > 0; ++z) {  // N − z mirrors z; the first component is 1 without loss
            if (taken.count(z)) continue;
            double sum = 0;
            for (int i = 0; i < n; ++i)
                sum += before[static_cast<std::size_t>(i)] * omega[static_cast<std::size_t>(i * z % n)];
            if (!(sum < least - 1e-12 * std::abs(least)) && std::isfinite(least)) continue;
            least = sum;
            best = z;
        }
        built.push_back(best);
        taken.insert(best);
        for (int i = 0; i < n; ++i)
            before[static_cast<std::size_t>(i)] += omega[static_cast<std::size_t>(i * best % n)];
    }
    CHECK(built == std::vector<int>(lattice_generator.begin(), lattice_generator.end()));
}

TEST_CASE("in every dimension, also beyond the vector, each of the strata holds one point") {
    const ShiftedLattice lattice(80, 7);
    std::size_t fewest = lattice_points;
    double low = 1, high = 0;
    for (std::size_t d = 0; d < 80; ++d) {
        // All points of a dimension share their place in the stratum.
        const double first = lattice.at(0, d) - std::floor(lattice.at(0, d) * n) / n;
        std::set<long> strata;
        for (std::size_t i = 0; i < lattice_points; ++i) {
            const double u = lattice.at(i, d);
            strata.insert(std::lround((u - first) * n));
            low = least_of(low, u);
            high = worst_of(high, u);
        }
        fewest = std::min(fewest, strata.size());
    }
    CHECK(fewest == lattice_points);
    CHECK((low > 0 && high < 1));
}

TEST_CASE("same seed, same points; another seed or another shift, others") {
    const ShiftedLattice p(70, 1), q(70, 1), r(70, 2);
    CHECK((p.at(5, 3) == q.at(5, 3) && p.at(5, 69) == q.at(5, 69)));
    CHECK((p.at(5, 3) != r.at(5, 3) && p.at(5, 3) != p.at(5, 3, 1)));
}

TEST_CASE("the lattice's deviates are standard normal and uncorrelated") {
    // Plain random draws have standard errors of 1/√N for mean and correlation and √(2/N) for the variance, and the
    // worst of these 528 pairs up to four times that. The lattice is asked for half the mean's, two thirds of the
    // variance's and of the correlations' root mean square, and no correlation beyond four of those standard errors.
    const double plain = 1 / std::sqrt(n);
    double mean = 0, variance = 0, correlation = 0, squares = 0, pairs = 0;
    for (std::uint64_t seed = 0; seed < 8; ++seed) {
        const ShiftedLattice lattice(lattice_dimensions, seed);
        for (std::size_t a = 0; a < lattice_dimensions; ++a)
            for (std::size_t b = a; b < lattice_dimensions; ++b) {
                double sum = 0, product = 0;
                for (std::size_t i = 0; i < lattice_points; ++i) {
                    const double x = normal_quantile(lattice.at(i, a)), y = normal_quantile(lattice.at(i, b));
                    sum += x / n;
                    product += x * y / n;
                }
                mean = worst_of(mean, std::abs(sum));
                double& worst = a == b ? variance : correlation;
                worst = worst_of(worst, std::abs(product - (a == b ? 1 : 0)));
                squares += a == b ? 0 : product * product;
                pairs += a == b ? 0 : 1;
            }
    }
    INFO("mean " << mean << ", variance " << variance << ", correlation " << correlation);
    CHECK(mean < plain / 2);
    CHECK(variance < 2 * std::sqrt(2.0) * plain / 3);
    CHECK(correlation < 4 * plain);
    CHECK(std::sqrt(squares / pairs) < plain);
}

TEST_CASE("normal deviates undo the normal distribution") {
    double worst = 0, at = 0;
    for (int k = 1; k <= 4000; ++k) {
        const double x = -7.0 + 14.0 * k / 4001;
        // Φ(x) by erfc; above 0 the digits of p are those of 1 − Φ(−x), so deviates there are known to ulp(p)/density
        // only.
        const double p = 0.5 * std::erfc(-x / std::numbers::sqrt2);
        const double known = 1e-16 / std::exp(-x * x / 2) * 2.6;
        const double off = std::abs(normal_quantile(p) - x) - (x > 0 ? known : 0);
        if (worse(off, worst)) {
            worst = off;
            at = x;
        }
    }
    INFO("worst at " << at << ": " << worst);
    CHECK(worst < 1e-14);
    CHECK(normal_quantile(0.5) == 0);
    CHECK(normal_quantile(0.25) == -normal_quantile(0.75));
    CHECK_THROWS_AS(normal_quantile(0), std::invalid_argument);
    CHECK_THROWS_AS(normal_quantile(1), std::invalid_argument);
}
