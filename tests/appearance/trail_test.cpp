// Finishes that begin alike share what was laid: each looks as if it were worked out by itself.

#include <catch2/catch.hpp>
#include <cmath>

#include "../../src/appearance/every_fourth.hpp"
#include "../../src/appearance/moments.hpp"
#include "../../src/appearance/slopes.hpp"
#include "appearance/finishes.hpp"
#include "foretone/appearance/lattice.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

const color::Weights trail_light = color::make_weights(light("D65"), observer("2deg"));

// The same dye under one, two and three coats, under another film, and a stronger dye.
std::vector<schedule::Finish> alike() {
    const auto dye = dye_step("honey-dye", 12), strong = dye_step("honey-dye", 6);
    const auto shellac = coat_step("orange-shellac", 1), one = coat_step("waterborne-acrylic", 1),
               three = coat_step("waterborne-acrylic", 3), varnish = coat_step("oil-varnish", 2);
    return {{"bare", {}},
            {"one", {dye, shellac, one}},
            {"three", {dye, shellac, three}},
            {"varnish", {dye, varnish}},
            {"strong", {strong, shellac, one}}};
}

// All colors of one finish, laid from the bare wood on.
Colors by_itself(const UncertainFigures& figures, const schedule::Finish& finish, std::size_t f, const Solver& solver) {
    Colors out;
    const NodeWeights weights(trail_light, 4);
    const auto dry = dry_wood(figures.wood(), 4);
    visit_moments(figures.materials(), figures.wood(), finish, figures.departure(f), nullptr, [&](const Moment& m) {
        const auto total =
            total_at_nodes(dry, m.board(), figures.wood(), optics::Geometry::g45_0, every_fourth(solver));
        out.push_back({color::to_lab(weights.xyz(total), trail_light.white)});
    });
    return out;
}

bool same(const Colors& a, const Colors& b) {
    if (a.size() != b.size()) return false;
    for (std::size_t s = 0; s < a.size(); ++s)
        if (a[s][0].l != b[s][0].l || a[s][0].a != b[s][0].a || a[s][0].b != b[s][0].b) return false;
    return true;
}

}  // namespace

TEST_CASE("finishes that begin alike look, in any world, as each does by itself, to the bit") {
    const auto& materials = whole_library();
    const auto finishes = alike();
    const auto solver = two_flux_solver();
    const SpreadQuestion q{materials, "hard-maple", finishes, optics::Geometry::g45_0, solver, {trail_light}};
    UncertainFigures figures(materials, "hard-maple", finishes, trail_light, {});
    Eye eye(q, figures);
    const std::size_t count = figures.coordinates().size();
    const ShiftedLattice lattice(count, 7);
    World world(count, 0.0);
    for (std::size_t i = 0; i < 6; ++i) {
        // Every other world has the materials of the one before it, and another board and hand.
        for (std::size_t c = 0; c < count; ++c)
            if (i % 2 == 0 || figures.coordinates()[c].origin == Origin::boards)
                world[c] = normal_quantile(lattice.at(i, c));
        figures.set(world);
        const auto seen = eye.look(StagesAsked::all), finished = eye.look(StagesAsked::last),
                   ends = eye.look(StagesAsked::first_and_last);
        for (std::size_t f = 0; f < finishes.size(); ++f) {
            INFO("world " << i << ", " << finishes[f].name);
            const auto due = by_itself(figures, finishes[f], f, solver);
            CHECK(same(seen[f], due));
            CHECK(same(finished[f], {due.back()}));
            CHECK(same(ends[f], {due.front(), due.back()}));
        }
    }
}

TEST_CASE("a light's weights at the nodes see what the spectrum between them is seen as") {
    const auto& wood = std::get<material::Wood>(whole_library().at("hard-maple").data);
    const auto board = after_coats({}, schedule::deposit(dye_step("honey-dye", 12), whole_library()), 1, wood);
    for (const std::size_t every : {1, 2, 4}) {
        Solver solver = two_flux_solver();
        solver.every = every;
        const auto seen = NodeWeights(trail_light, every)
                              .xyz(total_at_nodes(dry_wood(wood, every), board, wood, optics::Geometry::g45_0, solver));
        const auto due = color::xyz(render(board, wood, optics::Geometry::g45_0, solver).total(), trail_light);
        INFO("every " << every);
        CHECK(seen.x == Approx(due.x).epsilon(1e-12));
        CHECK(seen.y == Approx(due.y).epsilon(1e-12));
        CHECK(seen.z == Approx(due.z).epsilon(1e-12));
    }
}

TEST_CASE("a coordinate that cannot change a finish does not") {
    const auto& materials = whole_library();
    const auto finishes = alike();
    const auto solver = two_flux_solver();
    SpreadQuestion q{materials, "hard-maple", finishes, optics::Geometry::g45_0, solver, {trail_light}};
    q.stages = StagesAsked::last;
    UncertainFigures figures(materials, "hard-maple", finishes, trail_light, {});
    Eye eye(q, figures);
    const auto base = eye.look(StagesAsked::last);
    std::vector<std::size_t> still(finishes.size());
    for (std::size_t c = 0; c < figures.coordinates().size(); ++c) {
        World world(figures.coordinates().size(), 0.0);
        world[c] = 1;
        figures.set(world);
        const auto all = eye.look(StagesAsked::last);
        const auto moved = eye.try_moved(c);
        REQUIRE(moved);
        for (std::size_t f = 0; f < finishes.size(); ++f) {
            INFO(figures.coordinates()[c].name << ", " << finishes[f].name);
            if (figures.moves(c, f)) {
                CHECK(same({(*moved)[f].back()}, all[f]));
                continue;
            }
            ++still[f];
            CHECK(same(all[f], base[f]));
            CHECK((*moved)[f].empty());
        }
    }
    CHECK(still[0] > still[1]);  // bare wood has least to be moved by
    for (const std::size_t count : still) CHECK(count > 0);
}

TEST_CASE("between the wavelengths that are solved a spectrum is a cubic, and at them it is what was solved") {
    spectral::Spectrum cubic;
    for (std::size_t i = 0; i < cubic.size(); ++i) {
        const double x = (spectral::grid_nm(i) - 580) / 200;
        cubic[i] = 0.4 + 0.3 * x - 0.2 * x * x + 0.1 * x * x * x;
    }
    for (const std::size_t every : {std::size_t{1}, std::size_t{2}, std::size_t{4}}) {
        const auto nodes = thinned(cubic, every);
        REQUIRE(nodes.size() == nodes_of(every));
        const auto all = filled(nodes, every);
        double worst = 0;
        for (std::size_t i = 0; i < all.size(); ++i) worst = worst_of(worst, std::abs(all[i] - cubic[i]));
        INFO("every " << every << ": off by " << worst);
        CHECK(worst < closed_form);
        for (std::size_t i = 0; i < nodes.size(); ++i) CHECK(all[i * every] == nodes[i]);
    }
}
