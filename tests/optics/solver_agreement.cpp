// What two_flux.hpp says of its errors, over seeded finishes.

#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "foretone/optics/angular.hpp"
#include "foretone/optics/calibration.hpp"
#include "foretone/optics/two_flux.hpp"
#include "random.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

struct Finish {
    Stack stack;
    double dye = 0;  ///< absorbance of the dye, natural log, along the normal
};

/// Wood of diffuse reflectance 0.03–0.85 within, wetted in one or two zones to 0.02–0.3 mm, dyed or not, its pores
/// partly filled; over it a clear film, absorbing or not, or one that scatters.
Finish finish(Random& random, bool hazy) {
    const double n = random.uniform(1.33, 1.54);
    const double wood = random.chance(0.5) ? random.uniform(0.03, 0.3) : random.uniform(0.2, 0.85);
    const double scattering = random.uniform(6, 14), depth = random.log_uniform(0.02, 0.3);
    Finish out;
    out.dye = random.chance(0.4) ? 0.0 : random.log_uniform(0.01, 2.5);
    auto& layers = out.stack.layers;
    Layer film{n, 0.05, {random.chance(0.3) ? 0.0 : random.uniform(0, hazy ? 2 : 6)}, {}, 0};
    if (hazy) {
        film.thickness_mm = random.uniform(0.02, 0.1);
        film.scattering_per_mm = {random.log_uniform(0.05, 1)};
    }
    layers.push_back(film);
    const double absorption = absorption_over_scattering(wood) * scattering;
    const double fill = random.chance(0.3) ? 0.0 : random.uniform(0, 0.7);
    const double share = random.chance(0.5) ? 1.0 : random.uniform(0.2, 0.8);
    for (const bool upper : {true, false}) {
        const double d = (upper ? share : 1 - share) * depth;
        if (d <= 0) continue;
        const double dye = share == 1 ? out.dye : (upper ? 0.8 : 0.2) * out.dye;
        layers.push_back({n, d, {absorption + dye / d}, {scattering * (1 - (upper ? fill : 0.5 * fill))}, 0});
    }
    out.stack.wavelengths = 1;
    out.stack.base.reflectance = {wood};
    return out;
}

struct Errors {
    double median, most, worst;  ///< most: the 95th percentile
    std::string text() const {
        const auto figure = [](double v) { return std::to_string(v); };
        return "median " + figure(median) + ", 95th percentile " + figure(most) + ", worst " + figure(worst);
    }
};

/// Relative errors of body radiance factors, over finishes whose dye's absorbance is in [low, high).
Errors errors(bool hazy, Geometry geometry, double low, double high) {
    Random random(hazy ? 62 : 61);
    std::vector<double> off;
    for (int i = 0; i < 600; ++i) {
        const Finish f = finish(random, hazy);
        if (f.dye < low || f.dye >= high) continue;
        const double expected = angular(f.stack, geometry, {16, false}).body[0];
        off.push_back(std::abs(two_flux(f.stack, geometry).body[0] / expected - 1));
    }
    std::sort(off.begin(), off.end());
    return {off[off.size() / 2], off[off.size() * 95 / 100], off.back()};
}

}  // namespace

TEST_CASE("under clear films the fast solver's readings are as near the angular solver's as its header says") {
    const auto check = [](Geometry geometry, double low, double high, double median, double most, double worst) {
        const Errors found = errors(false, geometry, low, high);
        INFO("dye " << low << " to " << high << ": " << found.text());
        CHECK(found.median <= median);
        CHECK(found.most <= most);
        CHECK(found.worst <= worst);
    };
    check(Geometry::g45_0, 0, 3, 0.0022, 0.0072, 0.014);
    check(Geometry::g45_0, 0, 0.005, 0.0023, 0.0069, 0.012);
    check(Geometry::g45_0, 0.005, 0.1, 0.0024, 0.0066, 0.013);
    check(Geometry::g45_0, 0.1, 0.5, 0.0027, 0.0099, 0.014);
    check(Geometry::g45_0, 0.5, 3, 0.0016, 0.0071, 0.011);
    check(Geometry::d8_included, 0, 3, 0.0022, 0.0100, 0.020);
}

TEST_CASE("under a film that scatters too") {
    const Errors seen = errors(true, Geometry::g45_0, 0, 3), sphere = errors(true, Geometry::d8_included, 0, 3);
    INFO("45/0 " << seen.text() << "; d/8 " << sphere.text());
    CHECK(seen.median <= 0.0029);
    CHECK(seen.most <= 0.016);
    CHECK(seen.worst <= 0.043);
    CHECK(sphere.median <= 0.0038);
    CHECK(sphere.most <= 0.019);
    CHECK(sphere.worst <= 0.044);
}

namespace {

/// A scattering layer, half of the time a half-space, else over a Lambertian base.
Layer scatterer(Random& random, double n, double g, Stack& stack) {
    const double reduced = random.log_uniform(0.5, 20);
    const bool endless = random.chance(0.5);
    stack.base.kind = endless ? Base::Kind::black : Base::Kind::lambertian;
    if (!endless) stack.base.reflectance = {random.uniform(0, 1)};
    const double thickness = endless ? std::numeric_limits<double>::infinity() : random.log_uniform(0.02, 1);
    return {n, thickness, {random.log_uniform(0.01, 20)}, {reduced / (1 - g)}, g};
}

/// Largest absolute error over both geometries and `count` stacks; NaN if one is.
template <class Make>
double largest_error(int count, Make make) {
    Random random(63);
    double worst = 0;
    for (int i = 0; i < count; ++i) {
        Stack stack;
        stack.wavelengths = 1;
        make(random, stack);
        for (const auto geometry : {Geometry::g45_0, Geometry::d8_included}) {
            const double off =
                std::abs(two_flux(stack, geometry).body[0] - angular(stack, geometry, {16, false}).body[0]);
            if (off > worst || std::isnan(off)) worst = off;
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("outside finishes the fast solver's errors are those its header states") {
    const auto of_g = [](double low, double high) {
        return largest_error(1000, [low, high](Random& random, Stack& stack) {
            const double g = random.uniform(low, high);
            stack.layers.push_back(scatterer(random, random.uniform(1.33, 1.58), g, stack));
        });
    };
    CHECK(of_g(0, 0.95) <= 0.03);
    CHECK(of_g(-0.3, 0) <= 0.04);
    const double backward = of_g(-0.99, -0.3);
    CHECK(backward <= 0.6);
    CHECK(backward > 0.1);  // the warning is not idle
    CHECK(largest_error(1000, [](Random& random, Stack& stack) {
              const bool extreme = random.chance(0.3);  // 3, 1, 3, 1, 3
              const std::size_t films = extreme ? 5 : 1 + random.below(5);
              for (std::size_t i = 0; i < films; ++i) {
                  const double n = extreme ? (i % 2 == 0 ? 3 : 1) : random.uniform(1, 3);
                  stack.layers.push_back({n, 0.02, {random.log_uniform(0.001, 5)}, {}, 0});
              }
              stack.layers.push_back(scatterer(random, random.uniform(1, 3), 0, stack));
          }) <= 0.03);
}
