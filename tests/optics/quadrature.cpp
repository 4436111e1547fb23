// Gauss–Legendre rules.

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "foretone/optics/quadrature.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

TEST_CASE("the three-point rule is the textbook one") {
    // Nodes 0, ±√(3/5), weights 8/9, 5/9: the roots of P3 in closed form.
    const Nodes g = gauss_legendre(3, -1, 1);
    CHECK_THAT(g.x[0], Near(-std::sqrt(0.6), 1e-15));
    CHECK_THAT(g.x[1], Near(0, 1e-15));
    CHECK_THAT(g.w[0], Near(5.0 / 9, 1e-15));
    CHECK_THAT(g.w[1], Near(8.0 / 9, 1e-15));
}

TEST_CASE("a rule of N nodes is exact for every power up to 2N − 1") {
    // Expected: 1/(p + 1), the integral of x^p on 0–1.
    double worst = 0;
    for (const int count : {1, 2, 5, 10, 16, 33, 64}) {
        const Nodes g = gauss_legendre(count, 0, 1);
        for (int power = 0; power <= 2 * count - 1; ++power) {
            double sum = 0;
            for (std::size_t i = 0; i < g.x.size(); ++i) sum += g.w[i] * std::pow(g.x[i], power);
            worst = worst_of(worst, std::abs(sum * (power + 1) - 1));
        }
    }
    CHECK_THAT(worst, Near(0, 1e-13));
}

TEST_CASE("nodes rise within the interval and are symmetric") {
    const Nodes g = gauss_legendre(101, -2, 2);
    bool rising = true, symmetric = true;
    for (std::size_t i = 0; i < g.x.size(); ++i) {
        rising = rising && (i == 0 ? g.x[i] > -2 : g.x[i] > g.x[i - 1]) && g.x[i] < 2;
        symmetric = symmetric && g.x[i] == -g.x[100 - i] && g.w[i] == g.w[100 - i];
    }
    CHECK(rising);
    CHECK(symmetric);
}

TEST_CASE("a rule without nodes or with a reversed interval is refused") {
    CHECK_THROWS_WITH(gauss_legendre(0, 0, 1), Catch::Contains("count 0"));
    CHECK_THROWS_AS(gauss_legendre(3, 1, 0), std::invalid_argument);
    CHECK_THROWS_AS(gauss_legendre(3, 0, std::numeric_limits<double>::infinity()), std::invalid_argument);
}
