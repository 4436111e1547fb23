// Clear films over diffusers.

#include "foretone/optics/clear_films.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "foretone/optics/fresnel.hpp"
#include "random.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

double cosine(double degrees) { return std::cos(degrees * std::numbers::pi / 180); }

double distance(const Panel& a, const Panel& b) {
    return std::max({std::abs(a.r_above - b.r_above), std::abs(a.r_below - b.r_below), std::abs(a.t_down - b.t_down),
                     std::abs(a.t_up - b.t_up)});
}

struct Run {
    double n_above, n_below;
    std::vector<ClearFilm> films;
    Panel panel() const { return clear_films(n_above, films, n_below); }
};

Run random_run(Random& random, bool absorbing) {
    constexpr double indices[] = {1.0, 1.33, 1.4, 1.45, 1.48, 1.5, 1.55, 1.6, 1.7};
    Run run{indices[random.below(9)], indices[random.below(9)], {}};
    for (std::size_t i = random.below(4); i > 0; --i) {
        run.films.push_back({indices[random.below(9)], absorbing ? random.log_uniform(1e-4, 10) : 0.0});
    }
    return run;
}

}  // namespace

TEST_CASE("a clear film over a diffuser meets the Williams and Clapper table in every geometry") {
    // Computed from Williams & Clapper 1953 to 1e-12, printed to eight decimals.
    double worst = 0;
    std::string where;
    for (const Row& row : table("clear_film_over_lambertian.csv")) {
        const double n = row.number("n"), rho = row.number("rho_base");
        const ClearFilm film[] = {{n, -std::log(row.number("t_normal"))}};
        const Panel p = clear_films(1, film, n);
        const Beam normal = clear_films_beam(1, film, n, 1), oblique = clear_films_beam(1, film, n, cosine(45));
        const double falling = rho / (1 - rho * p.r_below);
        const auto compare = [&](const char* column, double got) {
            const double off = std::abs(got - row.number(column));
            if (!(off <= worst)) {
                worst = off;
                where = row.text("n") + " " + row.text("t_normal") + " " + row.text("rho_base") + " " + column;
            }
        };
        compare("D=2int(1-r10)t^sec", p.t_up);
        compare("Q=2int_r10_t^2sec", p.r_below);
        compare("R_0d_excl_spec", normal.transmittance * falling * p.t_up);
        compare("R_0d_incl_spec", normal.reflectance + normal.transmittance * falling * p.t_up);
        compare("R_dd_incl", p.r_above + p.t_down * falling * p.t_up);
        compare("radiance_factor_45_0", oblique.transmittance * falling * normal.radiance_factor);
        compare("radiance_factor_d_0_excl", p.t_down * falling * normal.radiance_factor);
        compare("radiance_factor_0_0_excl", normal.transmittance * falling * normal.radiance_factor);
    }
    CAPTURE(where);
    CHECK_THAT(worst, Near(0, 1.1e-8));  // two roundings of the eighth decimal: t_normal's logarithm is exact here
}

TEST_CASE("a bare interface is Walsh's closed form from both sides") {
    for (const double n : {1.1, 1.33, 1.5, 2.5}) {
        const Panel p = clear_films(1, {}, n);
        CHECK_THAT(p.r_above, Near(diffuse_external(n), closed_form));
        CHECK_THAT(p.r_below, Near(diffuse_internal(n), closed_form));
    }
}

TEST_CASE("a single film between black media is the exponential integral") {
    // t = 2 E3(depth), and 2 E3(x) = exp(−x)(1 − x) + x² E1(x) is E1(1) = 0.219383934395520 at x = 1 (Abramowitz &
    // Stegun 1964, equation 5.1.14 and table 5.1).
    const ClearFilm film[] = {{1.5, 1.0}};
    const Panel p = clear_films(1.5, film, 1.5);
    CHECK_THAT(p.t_down, Near(0.219383934395520, closed_form));
    CHECK(p.r_above == 0);
}

TEST_CASE("several films of one index equal one film of their depths' sum") {
    const ClearFilm three[] = {{1.5, 0.1}, {1.5, 0.25}, {1.5, 0.05}}, one[] = {{1.5, 0.4}};
    CHECK_THAT(distance(clear_films(1, three, 1.53), clear_films(1, one, 1.53)), Near(0, identity));
    const Beam thrice = clear_films_beam(1, three, 1.53, 0.6), once = clear_films_beam(1, one, 1.53, 0.6);
    CHECK_THAT(thrice.transmittance, Near(once.transmittance, identity));
}

TEST_CASE("a film of intermediate index adds its interfaces as a plate's do") {
    // Normal incidence through a clear film of 1.4 on 1.6: interfaces (0.4/2.4)² and (0.2/3.0)², all internal
    // reflections.
    const ClearFilm film[] = {{1.4, 0.0}};
    const double a = std::pow(0.4 / 2.4, 2), b = std::pow(0.2 / 3.0, 2);
    const Beam beam = clear_films_beam(1, film, 1.6, 1);
    CHECK_THAT(beam.transmittance, Near((1 - a) * (1 - b) / (1 - a * b), identity));
    CHECK_THAT(beam.reflectance, Near(1 - (1 - a) * (1 - b) / (1 - a * b), identity));
    // It lets more diffuse light out than the bare interface does.
    CHECK(clear_films(1, film, 1.6).t_up > clear_films(1, {}, 1.6).t_up);
}

TEST_CASE("light that meets a film of lower index beyond its critical angle turns back there") {
    const ClearFilm gap[] = {{1.0, 0.0}};  // an air gap between two media of 1.5
    const Panel p = clear_films(1.5, gap, 1.5);
    // Without absorption only β < 1 passes: at most 1/n² of the flux.
    CHECK(p.t_down < 1 / 2.25);
    CHECK_THAT(p.r_above + p.t_down, Near(1, identity));
    const Beam beyond = clear_films_beam(1.5, gap, 1.5, 0.5);
    CHECK(beyond.reflectance == 1);
    CHECK(beyond.transmittance == 0);
    // An absorbing film above the gap is crossed twice: exp(−2·0.3/µ).
    const ClearFilm coated[] = {{1.5, 0.3}, {1.0, 0.0}};
    CHECK_THAT(clear_films_beam(1.5, coated, 1.5, 0.5).reflectance, Near(std::exp(-1.2), identity));
}

TEST_CASE("runs keep energy, reciprocity and mirror symmetry, over 10,000 random runs") {
    Random random(4);
    double energy = 0, lossless = 0, reciprocity = 0, mirror = 0;
    for (int i = 0; i < 2500; ++i) {
        const Run grey = random_run(random, true), white = random_run(random, false);
        const Panel g = grey.panel(), w = white.panel();
        energy = worst_of({energy, g.r_above + g.t_down - 1, g.r_below + g.t_up - 1});
        lossless = worst_of({lossless, std::abs(w.r_above + w.t_down - 1), std::abs(w.r_below + w.t_up - 1)});
        const double up = grey.n_below * grey.n_below * g.t_up, down = grey.n_above * grey.n_above * g.t_down;
        reciprocity = worst_of(reciprocity, std::abs(up - down));
        Run turned{grey.n_below, grey.n_above, {grey.films.rbegin(), grey.films.rend()}};
        const Panel t = turned.panel();
        mirror = worst_of(mirror, distance(t, {g.r_below, g.r_above, g.t_up, g.t_down}));
    }
    for (int i = 0; i < 7500; ++i) {
        const Run grey = random_run(random, true);
        const Beam b = clear_films_beam(grey.n_above, grey.films, grey.n_below, random.uniform(1e-3, 1));
        energy = worst_of(energy, b.reflectance + b.transmittance - 1);
    }
    CHECK(energy <= identity);
    CHECK_THAT(lossless, Near(0, identity));
    CHECK_THAT(reciprocity, Near(0, identity));
    CHECK_THAT(mirror, Near(0, identity));
}

TEST_CASE("the default nodes are within 2e-6 of the converged integral") {
    Random random(5);
    for (const double half_range : {0.1, 0.2}) {
        double worst = 0;
        std::string where;
        const double low = 1.5 - half_range, high = 1.5 + half_range;
        for (int i = 0; i < 4000; ++i) {
            std::vector<double> indices, depths;
            for (std::size_t j = 1 + random.below(3); j > 0; --j) {
                indices.push_back(random.uniform(low, high));
                depths.push_back(random.log_uniform(1e-4, 20));
            }
            const double below = random.chance(0.5) ? indices.back() : random.uniform(low, high);
            const double off = distance(ClearFilms(1, indices, below).diffuse(depths),
                                        ClearFilms(1, indices, below, {64, 64}).diffuse(depths));
            if (!(off <= worst)) {
                worst = off;
                where = std::to_string(below) + " under";
                for (std::size_t j = 0; j < indices.size(); ++j) {
                    where += " " + std::to_string(indices[j]) + ":" + std::to_string(depths[j]);
                }
            }
        }
        CAPTURE(half_range, where, worst);
        CHECK_THAT(worst, Near(0, 2e-6));
    }
}

TEST_CASE("64 nodes are converged to 1e-9") {
    Random random(6);
    double worst = 0;
    for (int i = 0; i < 300; ++i) {
        const double indices[] = {random.uniform(1.3, 1.7), random.uniform(1.3, 1.7)};
        const double depths[] = {random.log_uniform(1e-4, 20), random.log_uniform(1e-4, 20)};
        const double below = random.chance(0.5) ? indices[1] : random.uniform(1.3, 1.7);
        worst = worst_of(worst, distance(ClearFilms(1, indices, below, {64, 64}).diffuse(depths),
                                         ClearFilms(1, indices, below, {200, 200}).diffuse(depths)));
    }
    CAPTURE(worst);
    CHECK_THAT(worst, Near(0, closed_form));
}

TEST_CASE("the wet look: clear-film columns are met, and the distance from Lekner and Dorf's own model is as stated") {
    // albedo and p_internal columns computed from the Fresnel integrals; Lekner & Dorf 1988 treat the wet surface's
    // light differently (a film lying on facets of the substrate's index, absorption in the substrate). Their wet
    // albedo is lower than a clear coat over a Lambertian base by 0.0017 to 0.0234 over these rows, most at middling
    // albedo and n = 1.5.
    double worst = 0, least = 1, most = 0;
    for (const Row& row : table("wet_look_lekner_dorf.csv")) {
        const double n = row.number("n_liquid"), rho = row.number("albedo_dry");
        const ClearFilm film[] = {{n, 0.0}};
        const Panel p = clear_films(1, film, n);
        const Beam normal = clear_films_beam(1, film, n, 1);
        const double body = normal.transmittance * rho / (1 - rho * p.r_below) * p.t_up;
        worst =
            worst_of({worst, std::abs(p.r_below - row.number("p_internal")), std::abs(body - row.number("same_SCE")),
                      std::abs(body + normal.reflectance - row.number("clearcoat_Lambertian_Saunderson_0d_SCI"))});
        const double above = body + normal.reflectance - row.number("wet_LeknerDorf_incl_film_spec");
        least = least_of(least, above);
        most = worst_of(most, above);
    }
    CHECK_THAT(worst, Near(0, quadrature));
    CAPTURE(least, most);
    CHECK_THAT(least, Near(0.0017, 5e-5));
    CHECK_THAT(most, Near(0.0234, 5e-5));
}

TEST_CASE("films out of range are refused with their value") {
    const ClearFilm thin[] = {{0.9, 0.1}}, negative[] = {{1.5, -0.25}};
    CHECK_THROWS_WITH(clear_films(1, thin, 1.5), Catch::Contains("0.9"));
    CHECK_THROWS_WITH(clear_films(1, negative, 1.5), Catch::Contains("-0.25"));
    CHECK_THROWS_AS(clear_films_beam(1, {}, 1.5, 0), std::invalid_argument);
    CHECK_THROWS_AS(clear_films_beam(1, {}, 1.5, 1.1), std::invalid_argument);
    const double indices[] = {1.5}, two[] = {0.1, 0.2};
    CHECK_THROWS_AS(ClearFilms(1, indices, 1.5).diffuse(two), std::invalid_argument);
}
