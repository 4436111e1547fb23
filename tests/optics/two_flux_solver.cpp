// The prepared solver: the same figures as the free functions, and as converged integrals.

#include <algorithm>
#include <array>
#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/optics/clear_films.hpp"
#include "foretone/optics/two_flux.hpp"
#include "embedding.hpp"
#include "random.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

/// Two clear films over two scattering zones over a base, at 81 wavelengths.
Stack finish(Random& random, double n_upper, double n_lower, double n_wood) {
    const auto row = [&](double low, double high) {
        std::vector<double> out(81);
        for (double& v : out) v = random.log_uniform(low, high);
        return out;
    };
    Stack s;
    s.wavelengths = 81;
    s.layers = {{n_upper, random.log_uniform(5e-3, 0.1), row(1e-2, 60), {}, 0},
                {n_lower, random.log_uniform(5e-3, 0.1), row(1e-2, 60), {}, 0},
                {n_wood, random.log_uniform(0.02, 0.3), row(1e-2, 20), row(1, 50), 0.3},
                {n_wood, random.log_uniform(0.1, 1), row(1e-2, 10), row(1, 80), 0.5}};
    s.base.reflectance = row(0.05, 0.95);
    return s;
}

/// The 45/0 body radiance factor of slabs under clear films, from plain functions: 64-node films, and what is `below`
/// them.
double reading(const std::vector<ClearFilm>& films, double n, const Grown& below) {
    const Panel top = clear_films(1, films, n);
    const Beam in = clear_films_beam(1, films, n, std::sqrt(0.5)), out = clear_films_beam(1, films, n, 1);
    const double cone = normal_for_cone * cone_weight(n) * in.transmittance / (n * n);
    const double again = (top.r_below * below[1] - cone * (below[3] - below[1])) /
                         (1 - top.r_below * below[0] + cone * (below[2] - below[0]));
    return in.transmittance * out.radiance_factor * (below[3] + again * below[2]);
}

double secant(double n, double sine) { return n / std::sqrt(n * n - sine * sine); }

Grown slab_over(const Layer& l, std::size_t k, const Grown& below) {
    const double beam = secant(l.n, std::sqrt(0.5));
    return grown(l.absorption_per_mm[k], l.scattering_per_mm[k], l.anisotropy, l.thickness_mm, beam, 1, below);
}

Grown base_of(const Stack& s, std::size_t k) {
    const double r = s.base.reflectance[k];
    return {r, r, r, r, 0, 0};
}

double converged(const Stack& s, std::size_t k) {
    std::vector<ClearFilm> films;
    Grown below = base_of(s, k);
    for (std::size_t i = s.layers.size(); i-- > 0;) {
        const Layer& l = s.layers[i];
        if (l.scattering_per_mm.empty())
            films.insert(films.begin(), {l.n, l.absorption_per_mm[k] * l.thickness_mm});
        else
            below = slab_over(l, k, below);
    }
    return reading(films, s.layers.back().n, below);
}

double distance(const std::vector<double>& a, const std::vector<double>& b) {
    double worst = a.size() == b.size() ? 0.0 : 1.0;
    for (std::size_t i = 0; i < std::min(a.size(), b.size()); ++i) worst = worst_of(worst, std::abs(a[i] - b[i]));
    return worst;
}

}  // namespace

TEST_CASE("fast 45/0 readings are within 5e-7 of converged integrals") {
    Random random(31);
    double worst = 0;
    std::string where;
    using Indices = std::array<double, 3>;
    const Indices makes[] = {
        {1.5, 1.5, 1.5}, {1.48, 1.53, 1.53}, {1.53, 1.48, 1.5}, {1.48, 1.55, 1.52}, {1.42, 1.56, 1.56}};
    for (const Indices& n : makes) {
        const Stack s = finish(random, n[0], n[1], n[2]);
        const Radiance fast = two_flux(s, Geometry::g45_0);
        for (std::size_t k = 0; k < s.wavelengths; k += 3) {
            const double off = std::abs(fast.body[k] - converged(s, k));
            if (!(off <= worst)) {
                worst = off;
                where = std::to_string(n[0]) + " over " + std::to_string(n[1]) + " at " + std::to_string(k);
            }
        }
    }
    CAPTURE(where, worst);
    CHECK_THAT(worst, Near(0, 5e-7));
}

TEST_CASE("one solver serves many stacks of its make, and gives the free functions' bytes") {
    Random random(32);
    const Stack like = finish(random, 1.48, 1.53, 1.53);
    TwoFluxSolver reading(like, Geometry::g45_0), sphere(like, Geometry::d8_included);
    TwoFluxSolver ray(like, Light{false, 30}), sky(like, Light{true, 0});
    Radiance radiance;
    Fluxes fluxes;
    for (int i = 0; i < 5; ++i) {
        const Stack s = finish(random, 1.48, 1.53, 1.53);
        reading.solve(s, radiance);
        CHECK(radiance.body == two_flux(s, Geometry::g45_0).body);
        CHECK(radiance.specular == two_flux(s, Geometry::g45_0).specular);
        sphere.solve(s, radiance);
        CHECK(radiance.body == two_flux(s, Geometry::d8_excluded).body);
        ray.solve(s, fluxes);
        CHECK(fluxes.reflectance == two_flux(s, Light{false, 30}).reflectance);
        sky.solve(s, fluxes);
        CHECK(fluxes.reflectance == two_flux(s, Light{true, 0}).reflectance);
        CHECK(fluxes.surface == two_flux(s, Light{true, 0}).surface);
    }
}

TEST_CASE("each wavelength is solved by itself, whatever stands beside it") {
    Random random(33);
    const Stack s = finish(random, 1.5, 1.5, 1.5);
    const Radiance all = two_flux(s, Geometry::g45_0);
    Stack one = s;
    one.wavelengths = 1;
    for (std::size_t k : {std::size_t{0}, std::size_t{40}, std::size_t{80}}) {
        for (std::size_t l = 0; l < s.layers.size(); ++l) {
            one.layers[l].absorption_per_mm = {s.layers[l].absorption_per_mm[k]};
            if (!s.layers[l].scattering_per_mm.empty())
                one.layers[l].scattering_per_mm = {s.layers[l].scattering_per_mm[k]};
        }
        one.base.reflectance = {s.base.reflectance[k]};
        CHECK(two_flux(one, Geometry::g45_0).body[0] == all.body[k]);
    }
}

TEST_CASE("neighbouring coats of one index are one film to the solver") {
    Random random(34);
    const Stack s = finish(random, 1.5, 1.5, 1.53);
    Stack merged = s;
    for (std::size_t k = 0; k < s.wavelengths; ++k) {
        merged.layers[0].absorption_per_mm[k] = (s.layers[0].absorption_per_mm[k] * s.layers[0].thickness_mm +
                                                 s.layers[1].absorption_per_mm[k] * s.layers[1].thickness_mm) /
                                                0.05;
    }
    merged.layers[0].thickness_mm = 0.05;
    merged.layers.erase(merged.layers.begin() + 1);
    CHECK_THAT(distance(two_flux(s, Geometry::g45_0).body, two_flux(merged, Geometry::g45_0).body), Near(0, identity));
}

TEST_CASE("clear films between scattering layers are kept in their place") {
    // A glue line of 1.5 between two slabs of 1.5 with no absorption is nothing at all; an absorbing one is crossed by
    // diffuse light as 2 E3 says (see clear_films).
    Random random(35);
    Stack s = finish(random, 1.5, 1.5, 1.5);
    std::swap(s.layers[1], s.layers[2]);
    Stack clear = s, bare = s;
    clear.layers[2].absorption_per_mm.assign(81, 0.0);
    bare.layers.erase(bare.layers.begin() + 2);
    CHECK_THAT(distance(two_flux(clear, Geometry::g45_0).body, two_flux(bare, Geometry::g45_0).body),
               Near(0, identity));
    const Radiance got = two_flux(s, Geometry::g45_0);
    double worst = 0;
    for (std::size_t k = 0; k < 81; k += 8) {
        // The glue line between two slabs: diffuse light by its panel, beam and eye straight through (no step of
        // index).
        const double depth = s.layers[2].absorption_per_mm[k] * s.layers[2].thickness_mm;
        const ClearFilm glue[] = {{1.5, depth}};
        const Panel line = clear_films(1.5, glue, 1.5);
        const double beam = std::exp(-depth * secant(1.5, std::sqrt(0.5))), eye = std::exp(-depth);
        const Grown b = slab_over(s.layers[3], k, base_of(s, k));
        const Grown under{
            line.t_down * b[0] * line.t_up, beam * b[1] * line.t_up, line.t_down * b[2] * eye, beam * b[3] * eye, 0, 0};
        const double coat = s.layers[0].absorption_per_mm[k] * s.layers[0].thickness_mm;
        const double expected = reading({{1.5, coat}}, 1.5, slab_over(s.layers[1], k, under));
        worst = worst_of(worst, std::abs(got.body[k] - expected));
    }
    CHECK_THAT(worst, Near(0, quadrature));
}

TEST_CASE("a stack of another make, or the wrong kind of answer, is refused") {
    Random random(36);
    const Stack like = finish(random, 1.48, 1.53, 1.53);
    TwoFluxSolver solver(like, Geometry::g45_0);
    Radiance radiance;
    Fluxes fluxes;
    CHECK_THROWS_WITH(solver.solve(like, fluxes), Catch::Contains("radiance"));
    CHECK_THROWS_AS(TwoFluxSolver(like, Light{}).solve(like, radiance), std::invalid_argument);
    Stack other = like;
    other.layers[0].n = 1.49;
    CHECK_THROWS_WITH(solver.solve(other, radiance), Catch::Contains("another make"));
    other = like;
    other.layers[2].scattering_per_mm.clear();
    CHECK_THROWS_AS(solver.solve(other, radiance), std::invalid_argument);
    other = like;
    other.base.kind = Base::Kind::black;
    CHECK_THROWS_AS(solver.solve(other, radiance), std::invalid_argument);
    other = like;
    other.layers[1].absorption_per_mm[7] = -1;
    CHECK_THROWS_WITH(solver.solve(other, radiance), Catch::Contains("layer 2") && Catch::Contains("index 7"));
}

TEST_CASE("one reader answers stacks of all makes in any order with the free functions' bytes") {
    Random random(34);
    TwoFluxReader reader;
    Radiance radiance;
    Fluxes fluxes;
    std::vector<double> inside;
    // More runs of indices than a reader keeps, so that places are given up and taken again.
    for (int i = 0; i < 60; ++i) {
        const double n = 1.45 + 0.01 * (i * 7 % 13), m = i % 3 == 0 ? n : 1.4 + 0.02 * (i % 5);
        Stack s = finish(random, n, m, 1.5);
        if (i % 4 == 1)
            s.layers.push_back({1.5, INFINITY, s.layers[2].absorption_per_mm, s.layers[2].scattering_per_mm, 0});
        if (i % 4 == 2) s.base.kind = Base::Kind::open;
        if (i % 5 == 3) std::swap(s.layers[1], s.layers[2]);  // a film between two that scatter
        if (i % 2 == 1) {
            s.wavelengths = 21;
            s.base.reflectance.resize(21);
            for (auto& layer : s.layers) {
                layer.absorption_per_mm.resize(21);
                if (!layer.scattering_per_mm.empty()) layer.scattering_per_mm.resize(21);
            }
        }
        for (const Geometry geometry : {Geometry::g45_0, Geometry::d8_included}) {
            reader.read(s, geometry, radiance);
            const Radiance alone = two_flux(s, geometry);
            CHECK(radiance.body == alone.body);
            CHECK(radiance.specular == alone.specular);
        }
        for (const Light light : {Light{false, 30}, Light{true, 0}}) {
            reader.read(s, light, fluxes);
            const Fluxes alone = two_flux(s, light);
            CHECK(fluxes.reflectance == alone.reflectance);
            CHECK(fluxes.surface == alone.surface);
            CHECK(fluxes.transmittance == alone.transmittance);
        }
        s.layers.erase(s.layers.begin(), s.layers.begin() + 2);
        if (s.layers.front().scattering_per_mm.empty()) continue;
        reader.inside(s, inside);
        CHECK(inside == two_flux_inside(s));
    }
    CHECK_THROWS_AS(reader.read(Stack{1, {{0.5, 1, {1}, {}, 0}}, {}}, Geometry::g45_0, radiance),
                    std::invalid_argument);
}
