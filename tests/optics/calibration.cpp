// The half-space on which both solvers agree.

#include "foretone/optics/calibration.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "foretone/optics/angular.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

TEST_CASE("the half-space's fit is within 2.2e-6 of the angular solver for s from 0.02 to 1") {
    // Computed: angular solver, 32 streams, half-space of isotropic scattering without interface.
    Stack stack;
    for (int i = 0; i <= 49; ++i) {
        const double s = 0.02 + 0.02 * i;
        if (stack.layers.empty()) stack.layers.push_back({1.0, std::numeric_limits<double>::infinity(), {}, {}, 0});
        stack.layers[0].absorption_per_mm.push_back(s * s);
        stack.layers[0].scattering_per_mm.push_back(1 - s * s);
    }
    stack.wavelengths = stack.layers[0].absorption_per_mm.size();
    stack.base.kind = Base::Kind::black;
    const auto expected = angular_inside(stack, {32, false});
    double worst = 0;
    for (std::size_t k = 0; k < stack.wavelengths; ++k) {
        worst = worst_of(worst, std::abs(half_space_reflectance(stack.layers[0].scattering_per_mm[k]) - expected[k]));
    }
    CHECK_THAT(worst, Near(0, 2.2e-6));
    CHECK(half_space_reflectance(0) == 0);
    CHECK(half_space_reflectance(1) == 1);
}

TEST_CASE("the inverse undoes the fit to rounding") {
    double worst = 0;
    for (int i = 1; i < 400; ++i) {
        for (const double r : {i / 400.0, std::pow(10, -i / 40.0), 1 - std::pow(10, -i / 40.0)}) {
            // Through µa/µs′, which keeps its digits where R nears 1 and ω no longer tells.
            const double ratio = absorption_over_scattering(r), albedo = 1 / (1 + ratio);
            worst = worst_of(worst, std::abs(two_flux_rates(std::sqrt(ratio * albedo), albedo).r_infinity - r));
            worst = worst_of(worst, std::abs(half_space_albedo(r) / albedo - 1));
            if (r < 0.99) worst = worst_of(worst, std::abs(half_space_reflectance(half_space_albedo(r)) / r - 1));
        }
    }
    CHECK_THAT(worst, Near(0, identity));
    CHECK(absorption_over_scattering(1) == 0);
    CHECK(half_space_albedo(0) == 0);
    CHECK(half_space_albedo(1) == 1);
}

TEST_CASE("transport's half-space is the two fluxes' half-space") {
    double worst = 0, decay = 0;
    for (int i = 0; i <= 400; ++i) {
        const double s = std::pow(10, -i / 100.0), albedo = (1 - s) * (1 + s);
        const TwoFluxRates rates = two_flux_rates(s, albedo);
        const double kappa = std::sqrt(rates.absorption) * std::sqrt(rates.absorption + 2 * rates.scattering);
        decay = worst_of(decay, std::abs(s * std::sqrt(rates.decay_over_s) / kappa - 1));
        if (i == 0) continue;  // K/S is infinite
        const KubelkaMunk km = from_transport(3 * s * s, 3 * albedo, 0);
        const double from_km = r_infinity(km.absorption_per_mm / km.scattering_per_mm);
        worst =
            worst_of({worst, std::abs(from_km - half_space_reflectance(albedo)), std::abs(from_km - rates.r_infinity)});
    }
    CHECK_THAT(worst,
               Near(0, closed_form));  // half_space_reflectance takes s from 1 − ω, which costs digits at small s
    CHECK_THAT(decay, Near(0, identity));
}

TEST_CASE("the coefficients stay finite without scattering and without absorption") {
    const KubelkaMunk clear = from_transport(2, 0, 0), white = from_transport(0, 10, 0.5),
                      nothing = from_transport(0, 0, 0);
    // (h0 + h1)(1 + b + c)/(1 + a) at s = 1, from the constants of calibration.hpp.
    CHECK_THAT(clear.absorption_per_mm,
               Near(2 * 0.869 * (1 + half_space::b + half_space::c) / (1 + half_space::a), identity));
    CHECK(clear.scattering_per_mm == 0);
    CHECK(white.absorption_per_mm == 0);
    CHECK_THAT(white.scattering_per_mm, Near(0.812 * 5, identity));
    CHECK(nothing.absorption_per_mm == 0);
    CHECK(nothing.scattering_per_mm == 0);
}

TEST_CASE("albedos and reflectances out of range are refused with their value") {
    CHECK_THROWS_WITH(half_space_reflectance(1.5), Catch::Contains("1.5"));
    CHECK_THROWS_AS(half_space_albedo(-0.1), std::invalid_argument);
    CHECK_THROWS_WITH(absorption_over_scattering(0), Catch::Contains("reflectance"));
    CHECK_THROWS_AS(absorption_over_scattering(std::numeric_limits<double>::quiet_NaN()), std::invalid_argument);
}
