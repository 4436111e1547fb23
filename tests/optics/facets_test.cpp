#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>

#include "foretone/optics/facets.hpp"
#include "foretone/optics/quadrature.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

TEST_CASE("all facets are one, and half of them lean each way") {
    CHECK_THAT(facet_share(0.2, {-1e7, 1e7, -1e7, 1e7}), Near(1, quadrature));
    CHECK_THAT(facet_share(0.2, {0, 1e7, -1e7, 1e7}), Near(0.5, quadrature));
    CHECK(facet_share(0.2, {0.1, 0.1, -1, 1}) == 0);
}

TEST_CASE("the closed form is the integral of the facets' distribution") {
    for (const double alpha : {0.02, 0.15, 0.6}) {
        const Slopes range{-0.05, 0.12, 0.02, 0.3};
        const auto x = gauss_legendre(60, range.x_low, range.x_high), y = gauss_legendre(60, range.y_low, range.y_high);
        double sum = 0;
        for (std::size_t i = 0; i < 60; ++i)
            for (std::size_t j = 0; j < 60; ++j) {
                const double d = alpha * alpha + x.x[i] * x.x[i] + y.x[j] * y.x[j];
                sum += x.w[i] * y.w[j] * alpha * alpha / (std::numbers::pi * d * d);
            }
        CHECK_THAT(facet_share(alpha, range), Near(sum, quadrature));
    }
}

TEST_CASE("facets refuse what has no meaning") {
    CHECK_THROWS_AS(facet_share(0, {0, 1, 0, 1}), std::invalid_argument);
    CHECK_THROWS_AS(facet_share(0.1, {1, 0, 0, 1}), std::invalid_argument);
}
