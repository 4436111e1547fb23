#include "foretone/appearance/surface_state.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "foretone/appearance/render.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/angular.hpp"
#include "foretone/optics/fresnel.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using optics::Geometry;

namespace {

const material::Materials state_materials = small_materials();
const auto& state_wood = std::get<material::Wood>(state_materials.at("wood").data);
constexpr Geometry geometries[] = {Geometry::g45_0, Geometry::d8_included, Geometry::d8_excluded};

Board oiled(double fill) {
    Board b;
    b.zone.push_back({100, {}, {}, fill, 1.5});
    return b;
}

Board filmed(double um, double contact, double gu60 = 85) {
    Board b;
    b.coats.push_back({um, 1.5, {}, {}, false, contact});
    b.film_um = um;
    b.sheen_gu60 = gu60;
    return b;
}

double worst_apart(const Board& p, const Board& q, const material::Wood& on) {
    double worst = 0;
    for (const auto g : geometries) {
        const auto a = render(p, on, g, two_flux_solver()).total(), b = render(q, on, g, two_flux_solver()).total();
        for (std::size_t i = 0; i < a.size(); ++i) {
            const double d = std::abs(a[i] - b[i]);
            if (!(d <= worst)) worst = d;  // NaN stays
        }
    }
    return worst;
}

}  // namespace

TEST_CASE("a surface without air reflects inwards as a smooth boundary does, one without wall as its outside does") {
    // Walsh (Ryde 1931): 1 − k2 = (1 − k1)/n².
    for (const double n : {1.3, 1.47, 1.55}) {
        const double k1 = optics::diffuse_external(n);
        CHECK_THAT(dry_inner_reflection(k1, 1, n), Near(optics::diffuse_internal(n), identity));
        CHECK_THAT(dry_inner_reflection(k1, 0, n), Near(k1, identity));
    }
}

TEST_CASE("as absorption vanishes the angular solver's inner reflection becomes that of the formula, at any index") {
    // Light under a boundary is Lambertian when hardly any is lost. Under a smooth one it is not quite where more is:
    // what comes in lies within the critical cone, and k2 seems larger, by up to 0.1 in a dark body. Dry and wetted
    // planes of wall and air bend light every way, which is the case of the formula.
    double worst = 0, before = 1;
    for (const double absorption : {1.0, 0.1, 0.01, 0.001}) {
        worst = 0;
        for (const double n : {1.15, 1.25, 1.35, 1.5}) {
            optics::Stack body;
            body.wavelengths = 1;
            body.base.kind = optics::Base::Kind::black;
            body.layers.push_back({n, std::numeric_limits<double>::infinity(), {absorption}, {10}, 0});
            const double inside = optics::angular_inside(body)[0], k1 = optics::diffuse_external(n);
            const double u = (optics::angular(body, optics::Light{true, 0}).reflectance[0] - k1) / (1 - k1);
            const double found = (inside - u) / (inside * (1 - u));  // R = k1 + (1 − k1)(1 − k2) Rb/(1 − k2 Rb) for k2
            const double d = std::abs(found - dry_inner_reflection(k1, 1, n));
            if (!(d <= worst)) worst = d;
        }
        CHECK(worst < before);
        before = worst;
    }
    INFO("largest difference of k2 " << worst);
    CHECK(worst < 0.005);  // it goes with the root of absorption: 0.07, 0.02, 0.008, 0.0025
}

TEST_CASE("dry wood keeps its own pair; binder raises k2, steadily, to no more than wood without air has") {
    const auto dry = open_surface({}, state_wood);
    CHECK(dry.k1 == state_wood.surface_k1.value);
    CHECK(dry.k2 == state_wood.surface_k2.value);
    const double none = open_surface(oiled(0), state_wood).k2;
    CHECK(none == state_wood.surface_k2.value);
    double before = none;
    for (const double fill : {1e-9, 0.01, 0.1, 0.4, 1.0}) {
        const double k2 = open_surface(oiled(fill), state_wood).k2;
        CHECK(k2 > before);
        before = k2;
    }
    CHECK(before < 1 - (1 - state_wood.surface_k1.value) / (state_wood.n.value * state_wood.n.value));
    // What lies deeper than the cut cells wets no asperity.
    Board deep = oiled(0.4), shallow = oiled(0.4);
    deep.zone[0].depth_um = 800;
    shallow.zone[0].depth_um = 400;
    CHECK_THAT(open_surface(deep, state_wood).k2, Near(open_surface(shallow, state_wood).k2, closed_form));
}

TEST_CASE("a trace of binder, of film or of air under a film moves a reading by a trace") {
    CHECK(worst_apart({}, oiled(1e-9), state_wood) < 1e-6);
    CHECK(worst_apart({}, filmed(1e-7, 1), state_wood) < 1e-6);
    CHECK(worst_apart(filmed(40, 1), filmed(40, 1 - 1e-6), state_wood) < 1e-6);
    CHECK(worst_apart(filmed(200, 1), filmed(200.001, 1), state_wood) < 1e-6);
}

TEST_CASE("a body that absorbs nothing reads no more than all of the light in any state, and dry exactly all") {
    material::Wood white = state_wood;
    white.reflectance.values = spectral::Spectrum::constant(1 - 1e-6);
    const Board states[] = {{}, oiled(0.3), filmed(2, 1), filmed(60, 1), filmed(60, 0.3), filmed(2, 0.5, 5)};
    for (const auto& state : states)
        for (const auto g : {Geometry::d8_included, Geometry::d8_excluded}) {  // at 45/0 a film's lobe may exceed 1
            const auto reading = render(state, white, g, two_flux_solver());
            const double r = reading.total()[40];
            INFO("film " << state.film_um << ", geometry " << static_cast<int>(g) << ", body " << reading.body[40]);
            CHECK(r <= 1 + 1e-6);
            CHECK(r > 0.9);
        }
    CHECK_THAT(material::dry_surface(0.04, dry_inner_reflection(0.04, 0.3, 1.55), 1), Near(1, identity));
}

TEST_CASE("both solvers agree in every state of the surface") {
    // Two-flux is good to 2 % of a body's radiance factor (optics/two_flux.hpp); bodies here are about 0.3.
    const Board states[] = {{}, oiled(0.3), filmed(2, 1), filmed(60, 1), filmed(60, 0.5)};
    const auto exact = angular_solver(16), fast = two_flux_solver();
    double worst = 0;
    for (const auto& state : states)
        for (const auto g : geometries) {
            const double d = std::abs(render(state, state_wood, g, exact).total()[20] -
                                      render(state, state_wood, g, fast).total()[20]);
            if (!(d <= worst)) worst = d;
        }
    INFO("largest difference " << worst);
    CHECK(worst < 0.006);
}

TEST_CASE("what no film covers of an oiled board reads darker than dry wood, and its first surface is no longer fuzz") {
    for (const auto g : geometries)
        CHECK(render(oiled(0.4), state_wood, g, two_flux_solver()).body[20] <
              render({}, state_wood, g, two_flux_solver()).body[20] - 0.01);
    CHECK(open_first_surface(oiled(0.4), state_wood, Geometry::g45_0) <
          open_first_surface({}, state_wood, Geometry::g45_0));
}

TEST_CASE("a film of air over cells is no film, and one of a clear pane is a pane over dull wood") {
    const auto of = [](double n, Geometry g) {
        Board b = filmed(1000, 0);
        b.coats[0].n = n;
        return render(b, state_wood, g, two_flux_solver()).total()[20];
    };
    const double bare = render({}, state_wood, Geometry::d8_excluded, two_flux_solver()).total()[20];
    CHECK_THAT(of(1 + 1e-9, Geometry::d8_excluded), Near(bare, 1e-6));
    // A pane of two faces sends back 2ρ/(1 + ρ), ρ of one face, in each polarization (Stokes 1862). Read near the
    // normal, with every reflection: R = pane(0°) + (1 − pane(0°)) (1 − pane) Rw/(1 − pane Rw), the last for diffuse
    // light.
    for (const double n : {1.3, 1.5}) {
        const auto pane = [n](double mu) {
            const auto face = optics::fresnel(mu, 1, n);
            return face.s / (1 + face.s) + face.p / (1 + face.p);
        };
        double diffuse = 0;  // mean over cos² of the angle, 1,000 equal steps
        for (int i = 0; i < 1000; ++i) diffuse += pane(std::sqrt((i + 0.5) / 1000)) / 1000;
        const double expected = pane(1) + (1 - pane(1)) * (1 - diffuse) * bare / (1 - diffuse * bare);
        CHECK_THAT(of(n, Geometry::d8_included), Near(expected, 1e-3));  // 8° for 0°
    }
}

TEST_CASE("a film that bridges cells colors the wood below them as it does where it touches") {
    // Beer's law on the way in, at 45° in air, and out, straight up; what goes to and fro between film and wood takes
    // the way again, a few hundredths of the whole.
    Board clear = filmed(60, 0), deep = clear;
    const double per_mm = 12, n = 1.5;
    deep.coats[0].absorption_per_mm = spectral::Spectrum::constant(per_mm);
    const double way = 0.060 * (1 + 1 / std::sqrt(1 - 0.5 / (n * n)));
    const auto body = [](const Board& b) { return render(b, state_wood, Geometry::g45_0, two_flux_solver()).body[20]; };
    const double found = body(deep) / body(clear), once = std::exp(-per_mm * way);
    CHECK(found < once);
    CHECK(found > 0.93 * once);
}

TEST_CASE("binder soaked in first leaves no air under a film") {
    Board oil_first = filmed(1000, 0);
    oil_first.zone.push_back({400, {}, {}, 1, 1.5});
    const auto shares = surface_shares(oil_first, state_wood);
    CHECK(shares.touched > 0.8);
    CHECK_THAT(shares.touched, Near(shares.wetted * shares.film, identity));
}

TEST_CASE("a coat touches the wood where those below it left it open") {
    Board b = filmed(1000, 0.4);
    b.coats.push_back({50, 1.5, {}, {}, false, 1});
    b.film_um += 50;
    CHECK_THAT(surface_shares(b, state_wood).touched, Near(0.4, closed_form));
}

TEST_CASE("a thin film shows the scratches, a thick one its own gloss") {
    const double own = film_roughness(filmed(1000, 1), state_wood, 1.5),
                 thin = film_roughness(filmed(0.01, 1), state_wood, 1.5);
    CHECK(own < 0.02);
    CHECK_THAT(thin, Near(std::hypot(own, scratch_roughness), 1e-2));
    CHECK(film_roughness(filmed(5, 1), state_wood, 1.5) < thin);
}
