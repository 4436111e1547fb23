// The angular solver where the answer is known in closed form, and what it refuses.

#include <cmath>
#include <limits>
#include <numbers>
#include <vector>

#include <catch2/catch.hpp>

#include "angular_stacks.hpp"
#include "foretone/optics/angular.hpp"
#include "foretone/optics/clear_films.hpp"
#include "foretone/optics/fresnel.hpp"
#include "foretone/optics/quadrature.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();
const Light diffuse{true, 0};

/// Chandrasekhar's H function for isotropic scattering of albedo a (Chandrasekhar 1960, ch. V), from
/// 1/H(µ) = √(1−a) + (a/2)∫ ν H(ν)/(µ + ν) dν, iterated on a Gauss rule in √ν.
class HFunction {
public:
    explicit HFunction(double one_minus_a) : root_(std::sqrt(one_minus_a)), a_(1 - one_minus_a) {
        const Nodes rule = gauss_legendre(80, 0, 1);
        for (std::size_t i = 0; i < rule.x.size(); ++i) {
            nu_.push_back(rule.x[i] * rule.x[i]);
            weight_.push_back(2 * rule.x[i] * rule.w[i]);
        }
        h_.assign(nu_.size(), 1);
        for (int turn = 0; turn < 200; ++turn) {
            std::vector<double> next;
            for (const double nu : nu_) next.push_back(0.5 * ((*this)(nu) + h_[next.size()]));
            h_ = next;
        }
    }
    double operator()(double mu) const {
        double sum = root_;
        for (std::size_t i = 0; i < nu_.size(); ++i) sum += 0.5 * a_ * weight_[i] * nu_[i] * h_[i] / (mu + nu_[i]);
        return 1 / sum;
    }
    double beam_reflectance(double mu) const { return 1 - root_ * (*this)(mu); }
    double diffuse_reflectance() const {
        double moment = 0;
        for (std::size_t i = 0; i < nu_.size(); ++i) moment += weight_[i] * nu_[i] * h_[i];
        return 1 - 2 * root_ * moment;
    }

private:
    double root_, a_;
    std::vector<double> nu_, weight_, h_;
};

}  // namespace

TEST_CASE("a base alone in air reflects what it says, in every geometry") {
    const Stack stack = over_lambertian({}, 0.37);
    CHECK_THAT(angular(stack, diffuse).reflectance[0], Near(0.37, identity));
    CHECK_THAT(angular(stack, {false, 30}).reflectance[0], Near(0.37, closed_form));
    CHECK_THAT(angular(stack, Geometry::g45_0).body[0], Near(0.37, closed_form));
    CHECK_THAT(angular(stack, Geometry::d8_excluded).body[0], Near(0.37, closed_form));
    CHECK(angular(stack, Geometry::d8_included).specular[0] == 0);
    CHECK_THAT(angular_inside(stack)[0], Near(0.37, identity));
}

TEST_CASE("black glass reflects by Fresnel's formulas alone") {
    const Stack stack = over_black({clear_film(1.567, 0)});
    for (const double angle : {0.0, 8.0, 45.0, 60.0, 85.0, 89.9}) {
        const Fluxes f = angular(stack, {false, angle});
        const double expected = fresnel(std::cos(angle * std::numbers::pi / 180), 1, 1.567).unpolarised();
        CHECK_THAT(f.reflectance[0], Near(expected, closed_form));
        CHECK_THAT(f.surface[0], Near(expected, identity));
    }
    CHECK_THAT(angular(stack, diffuse, {32}).reflectance[0], Near(diffuse_external(1.567), closed_form));
    CHECK_THAT(angular(stack, Geometry::g45_0).body[0], Near(0, identity));
    CHECK_THAT(angular(stack, Geometry::d8_excluded).body[0], Near(0, closed_form));
}

TEST_CASE("a clear plate reflects and lets through by its two faces, polarisations apart") {
    const double n = 1.5, mu = 0.5, t = std::exp(-0.3 / std::sqrt(1 - (1 - mu * mu) / (n * n)));
    const Reflectance face = fresnel(mu, 1, n);
    double reflected = 0, passed = 0;
    for (const double r : {face.s, face.p}) {
        reflected += 0.5 * (r + (1 - r) * (1 - r) * r * t * t / (1 - r * r * t * t));
        passed += 0.5 * (1 - r) * (1 - r) * t / (1 - r * r * t * t);
    }
    const Fluxes f = angular(over_air({clear_film(n, 0.3)}), {false, 60});
    CHECK_THAT(f.reflectance[0], Near(reflected, closed_form));
    CHECK_THAT(f.surface[0], Near(reflected, closed_form));
    CHECK_THAT(f.transmittance[0], Near(passed, closed_form));
}

TEST_CASE("a very thin scattering layer sends back half of what it scatters") {
    // First order in optical depth b at normal incidence; the next order is b² ln b, 1e-11 here.
    for (const double a : {1.0, 0.5}) {
        const Fluxes f = angular(over_air({layer(1, a, 1e-6, 0)}), Light{});
        CHECK_THAT(f.reflectance[0], Near(0.5e-6 * a, 1e-10));
        CHECK_THAT(f.transmittance[0], Near(1 - 1e-6 + 0.5e-6 * a, 1e-10));
    }
}

TEST_CASE("half-spaces of isotropic scattering follow Chandrasekhar's H function, however little they absorb") {
    for (const double absorbed : {0.8, 0.1, 1e-3, 1e-6, 1e-10}) {
        const HFunction h(absorbed);
        Layer medium = layer(1, 1, infinite, 0);
        medium.absorption_per_mm = {absorbed};
        medium.scattering_per_mm = {1 - absorbed};
        const Stack stack = over_black({medium});
        INFO("absorbed share " << absorbed);
        CHECK_THAT(angular(stack, Light{}, {24}).reflectance[0], Near(h.beam_reflectance(1), quadrature));
        CHECK_THAT(angular(stack, {false, 60}, {24}).reflectance[0], Near(h.beam_reflectance(0.5), quadrature));
        CHECK_THAT(angular(stack, diffuse, {24}).reflectance[0], Near(h.diffuse_reflectance(), quadrature));
    }
    CHECK_THAT(angular(over_black({layer(1.5, 1, infinite, 0.8)}), Light{}).reflectance[0], Near(1, closed_form));
}

TEST_CASE("a thick white slab lets through 4/3 over its depth and two extrapolation lengths") {
    // Diffuse incidence, isotropic scattering, n = 1: T = (4/3)/(b + 2q), q = 0.7104460896 (Hopf's constant;
    // Chandrasekhar 1960, ch. III). Exact but for terms that fall as exp(−b). With anisotropy b becomes (1−g)b and q
    // hardly moves.
    for (const double b : {30.0, 1e3, 1e4}) {
        const Fluxes f = angular(over_air({layer(1, 1, b, 0)}), diffuse, {24});
        const double expected = 4.0 / 3 / (b + 2 * 0.7104460896);
        INFO("optical depth " << b);
        CHECK_THAT(f.transmittance[0] / expected, Near(1, quadrature));
        CHECK_THAT(f.reflectance[0] + f.transmittance[0], Near(1, closed_form));
    }
}

TEST_CASE("beams of all angles together are diffuse light") {
    const Nodes rule = gauss_legendre(24, 0, 1);
    const Stack coated = over_lambertian({clear_film(1.4, 0.2), layer(1.6, 0.9, 1, 0)}, 0.5);
    for (const Stack& stack : {over_air({layer(1.5, 0.98, 3, 0.8)}), coated}) {
        Fluxes sum{{0}, {0}, {0}};
        for (std::size_t i = 0; i < rule.x.size(); ++i) {
            const Fluxes f = angular(stack, {false, std::acos(rule.x[i]) * 180 / std::numbers::pi}, {32});
            sum.reflectance[0] += 2 * rule.x[i] * rule.w[i] * f.reflectance[0];
            sum.surface[0] += 2 * rule.x[i] * rule.w[i] * f.surface[0];
            sum.transmittance[0] += 2 * rule.x[i] * rule.w[i] * f.transmittance[0];
        }
        const Fluxes whole = angular(stack, diffuse, {32});
        CHECK_THAT(sum.reflectance[0], Near(whole.reflectance[0], quadrature));
        CHECK_THAT(sum.surface[0], Near(whole.surface[0], quadrature));
        CHECK_THAT(sum.transmittance[0], Near(whole.transmittance[0], quadrature));
    }
}

TEST_CASE("an eye at 8 degrees under diffuse light reads what a beam at 8 degrees sends up") {
    const Stack stack = over_lambertian({clear_film(1.5, 0.1), layer(1.4, 0.9, 1, 0.7)}, 0.6);
    const Fluxes beam = angular(stack, {false, 8});
    for (const Geometry g : {Geometry::d8_included, Geometry::d8_excluded}) {
        const Radiance eye = angular(stack, g);
        CHECK_THAT(eye.body[0] + eye.specular[0], Near(beam.reflectance[0], identity));
        CHECK_THAT(eye.specular[0], Near(beam.surface[0], identity));
    }
}

TEST_CASE("from inside, a clear film over a diffuse base is crossed twice and no interface is met") {
    // Diffuse transmittance 2 E3(depth) from clear_films between media of the film's own index.
    for (const double depth : {0.0, 0.1, 1.0}) {
        const std::vector<ClearFilm> film{{1.5, depth}};
        const double t = clear_films(1.5, film, 1.5).t_down;
        CHECK_THAT(angular_inside(over_lambertian({clear_film(1.5, depth)}, 0.8), {40})[0],
                   Near(0.8 * t * t, quadrature));
    }
}

TEST_CASE("indices that nearly agree give nearly what equal ones give") {
    // The change the index itself makes is at most 0.15 of it here.
    const Stack equal = over_lambertian({layer(1.5, 0.9, 1, 0.5), layer(1.5, 0.95, 1, 0)}, 0.5);
    const double whole = angular(equal, diffuse).reflectance[0], eye = angular(equal, Geometry::g45_0).body[0];
    for (const double step : {-1e-3, -1e-4, -3e-5, -1e-5, -1e-8, 1e-10, 1e-8, 1e-6, 1e-5, 3e-5, 1e-4, 1e-3}) {
        Stack near = equal;
        near.layers[0].n += step;
        INFO("step " << step);
        const double room = 3e-6 + 0.15 * std::abs(step);
        CHECK_THAT(angular(near, diffuse).reflectance[0], Near(whole, room));
        CHECK_THAT(angular(near, Geometry::g45_0).body[0], Near(eye, room));
    }
}

TEST_CASE("a layer that scatters ever less becomes a clear film") {
    const Stack clear = over_lambertian({clear_film(1.5, 0.3)}, 0.5);
    for (const double scattering : {1e-6, 1e-9, 1e-13}) {
        Stack haze = clear;
        haze.layers[0].scattering_per_mm = {scattering};
        const double film = angular(clear, diffuse).reflectance[0];
        CHECK_THAT(angular(haze, diffuse).reflectance[0], Near(film, 4 * scattering + identity));
    }
}

TEST_CASE("wavelengths do not touch each other and answers repeat to the last bit") {
    Stack stack = over_air({layer(1.5, 0.9, 1, 0.8), layer(1.4, 0.5, 2, 0)});
    const Stack first = stack;
    stack.wavelengths = 3;
    for (Layer& l : stack.layers) {
        l.absorption_per_mm = {l.absorption_per_mm[0], 0, 2};
        l.scattering_per_mm = {l.scattering_per_mm[0], 3, 0};
    }
    const Fluxes all = angular(stack, diffuse), again = angular(stack, diffuse), one = angular(first, diffuse);
    CHECK(all.reflectance.size() == 3);
    CHECK(all.reflectance == again.reflectance);
    CHECK(all.transmittance == again.transmittance);
    CHECK(all.reflectance[0] == one.reflectance[0]);
    CHECK(all.transmittance[0] == one.transmittance[0]);
}

TEST_CASE("what cannot be solved is refused with its place and value") {
    const Stack good = over_lambertian({layer(1.5, 0.9, 1, 0)}, 0.5);
    for (const double angle : {-1.0, 90.0, std::numeric_limits<double>::quiet_NaN()}) {
        CHECK_THROWS_WITH(angular(good, {false, angle}), Catch::Contains("angle"));
    }
    CHECK_THROWS_WITH(angular(good, diffuse, {3}), Catch::Contains("streams: 3"));
    CHECK_THROWS_WITH(angular(good, Geometry::g45_0, {65}), Catch::Contains("streams: 65"));
    CHECK_THROWS_AS(angular_inside(good, {0}), std::invalid_argument);
    Stack bad = good;
    bad.layers[0].absorption_per_mm[0] = -1;
    CHECK_THROWS_WITH(angular(bad, diffuse), Catch::Contains("layer 1"));
    CHECK_THROWS_AS(angular(bad, Geometry::d8_included), std::invalid_argument);
    CHECK_THROWS_AS(angular_inside(bad), std::invalid_argument);
}
