#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "foretone/appearance/render.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/calibration.hpp"
#include "foretone/optics/fresnel.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using optics::Geometry;

namespace {

const material::Materials rendered_materials = small_materials();
const auto& rendered_wood = std::get<material::Wood>(rendered_materials.at("wood").data);

}  // namespace

TEST_CASE("bare wood reads as it was read, in every geometry") {
    for (const auto g : {Geometry::g45_0, Geometry::d8_included, Geometry::d8_excluded})
        CHECK_THAT(render({}, rendered_wood, g, two_flux_solver()).total()[20], Near(0.5, closed_form));
}

TEST_CASE("an empty wetted zone changes nothing: wood over wood is wood") {
    Board b;
    b.zone.push_back({80, {}, {}, 0, 1});
    b.zone.push_back({150, {}, {}, 0, 1});
    CHECK_THAT(render(b, rendered_wood, Geometry::g45_0, two_flux_solver()).total()[20], Near(0.5, closed_form));
}

TEST_CASE("a trace of anything in the wood changes nothing at once: an empty zone under a coat is no zone") {
    // A zone over a perfect diffuser would read up to 0.025 below the diffuser alone: light from 45° is not diffuse
    // light.
    for (const auto& solver : {two_flux_solver(), angular_solver(16)})
        for (const auto g : {Geometry::g45_0, Geometry::d8_included, Geometry::d8_excluded}) {
            Board plain;
            plain.coats.push_back({40, 1.5, {}, {}});
            plain.film_um = 40;
            plain.sheen_gu60 = 30;
            Board zoned = plain;
            zoned.zone.push_back({80, {}, {}, 0, 1});
            zoned.zone.push_back({150, {}, {}, 0, 1});
            const auto without = render(plain, rendered_wood, g, solver).total(),
                       with = render(zoned, rendered_wood, g, solver).total();
            double worst = 0;
            for (std::size_t i = 0; i < with.size(); ++i) worst = worst_of(worst, std::abs(with[i] - without[i]));
            INFO(solver.name << ": " << worst);
            CHECK(worst < 1e-6);
        }
}

TEST_CASE("pores filled at the cell wall's index scatter nothing; half filled, half") {
    // With all scattering gone the zone only absorbs, what a half-space of reduced scattering 8·4/3 /mm and the wood's
    // reflectance absorbs.
    const auto body = material::body_reflectance(rendered_wood)[20];
    const double absorption = optics::absorption_over_scattering(body) * 8 * 4 / 3;
    Board full;
    full.zone.push_back({100, {}, {}, 1, rendered_wood.n.value});
    const auto stack = stack_of(full, rendered_wood, false);
    REQUIRE(stack.layers.size() == 2);  // the zone, and dry wood without end
    CHECK_THAT(stack.layers[0].scattering_per_mm[20], Near(0, identity));
    CHECK_THAT(stack.layers[0].absorption_per_mm[20], Near(absorption, closed_form));
    full.zone[0].fill = 0.5;
    CHECK_THAT(stack_of(full, rendered_wood, false).layers[0].scattering_per_mm[20],
               Near(8 * 4.0 / 3 / 2, closed_form));
}

TEST_CASE("overlapping fills never fill more than the pores") {
    Board b;
    b.zone.push_back({100, {}, {}, 0.8, 1.5});
    b.zone.push_back({150, {}, {}, 0.8, 1.333});
    for (const auto& layer : stack_of(b, rendered_wood, false).layers) CHECK(layer.scattering_per_mm[0] >= 0);
}

TEST_CASE("a thick clear coat turns the whole area to film, a thin one its share") {
    Board thick, thin;
    for (auto* b : {&thick, &thin}) b->coats.push_back({30, 1.5, {}, {}});
    thick.film_um = 1000;
    thin.film_um = 5 * std::log(2.0);         // level 5 µm: half the area
    thick.sheen_gu60 = thin.sheen_gu60 = 95;  // above the smooth gloss of n = 1.5: smooth
    const auto film = render(thick, rendered_wood, Geometry::d8_included, two_flux_solver());
    CHECK_THAT(film.surface[0],
               Near(optics::fresnel(std::cos(8 * std::numbers::pi / 180), 1.0, 1.5).unpolarised(), closed_form));
    const auto half = render(thin, rendered_wood, Geometry::d8_included, two_flux_solver());
    CHECK_THAT(half.total()[0], Near((film.total()[0] + 0.5) / 2, closed_form));
    CHECK(film.total()[0] < 0.5);
}

TEST_CASE("satin reads paler than gloss at 45/0, and alike with the specular included") {
    Board gloss;
    gloss.coats.push_back({40, 1.5, {}, {}});
    gloss.film_um = 40;
    gloss.sheen_gu60 = 90;
    Board satin = gloss;
    satin.sheen_gu60 = 10;
    const auto at = [](const Board& b, Geometry g) {
        return render(b, rendered_wood, g, two_flux_solver()).total()[0];
    };
    CHECK(at(satin, Geometry::g45_0) > at(gloss, Geometry::g45_0) + 1e-3);
    CHECK(at(satin, Geometry::d8_excluded) > at(gloss, Geometry::d8_excluded) + 1e-3);
    CHECK_THAT(at(satin, Geometry::d8_included), Near(at(gloss, Geometry::d8_included), closed_form));
}

TEST_CASE("no board of 2,000 seeded ones reads below 0 or above 1") {
    std::mt19937_64 rng(20);
    const auto uniform = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(rng() >> 11) * 0x1p-53;
    };
    double low = 1, high = 0;
    for (int i = 0; i < 2000; ++i) {
        Board b;
        for (int k = static_cast<int>(uniform(0, 4)); k > 0; --k)
            b.zone.push_back(
                {uniform(5, 300), spectral::Spectrum::constant(uniform(0, 3)), {}, uniform(0, 1), uniform(1.3, 1.56)});
        for (int k = static_cast<int>(uniform(0, 4)); k > 0; --k)
            b.coats.push_back({uniform(1, 100), uniform(1.33, 1.6), spectral::Spectrum::constant(uniform(0, 30)),
                               spectral::Spectrum::constant(uniform(0, 1) < 0.5 ? 0 : uniform(0, 3))});
        for (const auto& c : b.coats) b.film_um += c.thickness_um;
        b.sheen_gu60 = uniform(0, 100);
        for (const auto g : {Geometry::g45_0, Geometry::d8_included, Geometry::d8_excluded}) {
            const double r = render(b, rendered_wood, g, two_flux_solver()).total()[40];
            low = least_of(low, r);
            high = worst_of(high, r);
        }
    }
    CHECK(low >= 0);
    CHECK(high <= 1);
}
