#include "foretone/appearance/uncertain.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "foretone/appearance/spread.hpp"
#include "schedule/small_materials.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using optics::Geometry;

namespace {

const color::Weights d65_weights = color::make_weights(light("D65"), observer("2deg"));

schedule::Step some_coats(const std::string& id, int coats, double amount = 1) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, amount}};
    s.coats = coats;
    return s;
}

// Spreads where a finisher has them.
material::Materials unsure() {
    auto materials = small_materials();
    auto& wood = std::get<material::Wood>(materials.at("wood").data);
    wood.reflectance.sd = 0.1;
    wood.surface_k2.sd = 0.04;
    auto& varnish = std::get<material::Binder>(materials.at("varnish").data);
    varnish.absorption_per_mm->sd = 0.3;
    varnish.solids_volume_percent->sd = 4;
    std::get<material::Stock>(materials.at("stock").data).strength.sd = 0.2;
    return materials;
}

std::vector<Spread> spreads_of(const material::Materials& materials, const std::vector<schedule::Finish>& finishes,
                               const Knowledge& knowledge = {}) {
    const auto solver = two_flux_solver();
    return spreads(
        {materials, "wood", finishes, Geometry::g45_0, solver, {d65_weights}, StagesAsked::last, knowledge, {}});
}

const schedule::Finish clear{"clear", {some_coats("varnish", 2)}},
    dyed{"dyed", {some_coats("stock", 1), some_coats("varnish", 2)}};

}  // namespace

TEST_CASE("every figure has one coordinate, whatever uses it, and every name is one") {
    const UncertainFigures one(unsure(), "wood", {dyed}, d65_weights, {}),
        two(unsure(), "wood", {dyed, dyed, clear}, d65_weights, {});
    CHECK(one.coordinates().size() == two.coordinates().size());  // `clear` is laid in the same passes
    std::set<std::string> names;
    for (const auto& c : two.coordinates()) names.insert(c.name);
    CHECK(names.size() == two.coordinates().size());
    CHECK(names.count("wood/surface_k2") == 1);
    CHECK(names.count("stock/strength") == 1);
}

TEST_CASE("what the shop does not know and what boards do are told apart by name") {
    const UncertainFigures figures(unsure(), "wood", {dyed}, d65_weights, {});
    for (const auto& c : figures.coordinates()) {
        const bool board = c.name.find("/board/") != std::string::npos || c.name.find(": hand/") != std::string::npos ||
                           c.name.find(": coat/") != std::string::npos;
        INFO(c.name);
        CHECK((c.origin == Origin::boards) == board);
    }
}

TEST_CASE("a finish against itself is never seen on one board, and sometimes on two") {
    const auto s = spreads_of(unsure(), {clear, clear});
    const auto d = difference_spread(s[0].finished[0], s[1].finished[0]);
    CHECK((d.spread_de00 == 0 && d.low_de00 == 0 && d.high_de00 == 0));
    CHECK(chance_beyond(2, s[0].finished[0], s[1].finished[0]) == 0);
    const double apart = chance_beyond(2, s[0].finished[0], on_the_other_board(s[0].finished[0]));
    CHECK(apart > 0);
    CHECK(apart < 0.9);
}

TEST_CASE("a difference is surer than either of the two") {
    const auto s = spreads_of(unsure(), {clear, {"three coats", {some_coats("varnish", 3)}}});
    const auto d = difference_spread(s[0].finished[0], s[1].finished[0]);
    CHECK(d.spread_de00 > 0);
    CHECK(d.spread_de00 < 0.5 * s[0].de00(0, 0));
    CHECK(d.low_de00 <= d.high_de00);
}

TEST_CASE("materials' and boards' parts add up in squares, and each alone is what is left without the other") {
    Knowledge sure_uptake;
    sure_uptake.uptake = 0;
    const auto both = spreads_of(unsure(), {clear}, sure_uptake).front();
    const auto& r = both.regions.back()[0];
    CHECK_THAT(std::hypot(r.materials_de00, r.boards_de00), Near(r.rms_de00, 1e-9));
    // Without any spread among the materials, and board to board by a stated ΔE, boards and hands alone are left; with
    // the same board and a sure hand the materials alone. Products of the two make what is left differ a little.
    Knowledge sure_hand;
    sure_hand.hand = sure_hand.uptake = 0;
    sure_hand.same_board = true;
    auto materials = unsure();
    // The stock's part of the wood: what `wood_shapes` leaves it.
    std::get<material::Wood>(materials.at("wood").data).reflectance.sd *= std::sqrt(0.5);
    const auto materials_alone = spreads_of(materials, {clear}, sure_hand).front();
    INFO("materials " << r.materials_de00 << ", boards " << r.boards_de00 << "; alone " << materials_alone.de00(0, 0));
    CHECK_THAT(materials_alone.de00(0, 0) / r.materials_de00, Near(1, 0.15));
    CHECK(materials_alone.regions.back()[0].boards_de00 == 0);
}

TEST_CASE("a fit's covariance is what draws of it show") {
    // Two figures that hang together: as far as the table says, one rises as the other falls.
    JointTable fit;
    fit.title = "invented";
    fit.figures = {{"varnish", "absorption_per_mm", 0, JointFigure::Acts::logarithm, {}, 2},
                   {"varnish", "solids_volume_percent", 0, JointFigure::Acts::logarithm, {}, 50}};
    fit.factor = {{0.3}, {-0.3, 0}};
    Knowledge knows;
    knows.hand = knows.uptake = 0;
    knows.same_board = true;
    auto materials = small_materials();
    auto& varnish = std::get<material::Binder>(materials.at("varnish").data);
    varnish.absorption_per_mm->sd = 0.3;
    varnish.solids_volume_percent->sd = 15;
    varnish.stay.value = 1;  // all of it is film: its tint is absorption times solids
    const auto apart = spreads_of(materials, {clear}, knows).front();
    knows.fits = {fit};
    const auto together = spreads_of(materials, {clear}, knows).front();
    // Absorption times build is what the eye sees; the product is known, though neither factor is.
    CHECK(together.de00(0, 0) < 0.1 * apart.de00(0, 0));
    CHECK(std::any_of(together.contributions.begin(), together.contributions.end(),
                      [](const auto& c) { return c.what == "what \"invented\" left open"; }));
}

TEST_CASE("a figure that a fit says is known no further has no coordinate of its own") {
    JointTable fit;
    fit.figures = {{"varnish", "absorption_per_mm", 0, JointFigure::Acts::value, {}, 2}};
    fit.factor = {{0}};
    Knowledge knows;
    knows.fits = {fit};
    const UncertainFigures figures(unsure(), "wood", {clear}, d65_weights, knows);
    for (const auto& c : figures.coordinates()) CHECK(c.name.find("absorption") == std::string::npos);
}

TEST_CASE("a fitted build moves every coat laid that way, also one whose wet film is stated") {
    JointTable fit;
    fit.figures = {{"varnish", "wet_um.brush", 0, JointFigure::Acts::logarithm, {}, 100}};
    fit.factor = {{0.2}};
    Knowledge knows;
    knows.hand = knows.uptake = 0;
    knows.fits = {fit};
    auto stated = clear;
    stated.steps[0].wet_um = 80;
    UncertainFigures figures(small_materials(), "wood", {clear, stated}, d65_weights, knows);
    std::vector<double> world(figures.coordinates().size(), 0.0);
    REQUIRE(figures.coordinates().front().name == "varnish/wet_um.brush");
    world.front() = 1;
    figures.set(world);
    for (std::size_t f = 0; f < 2; ++f)
        for (const double wet : figures.departure(f).wet[0]) CHECK_THAT(wet, Near(std::exp(0.2), identity));
}

TEST_CASE("all at nothing is the materials as they are, to the bit, and comes back after any world") {
    const auto materials = unsure();
    UncertainFigures figures(materials, "wood", {dyed}, d65_weights, {});
    figures.set(std::vector<double>(figures.coordinates().size(), 1.5));
    CHECK(figures.wood().surface_k2.value != std::get<material::Wood>(materials.at("wood").data).surface_k2.value);
    figures.set(std::vector<double>(figures.coordinates().size(), 0.0));
    for (const auto& [id, m] : figures.materials()) {
        material::Material now = m, was = materials.at(id);
        const auto p = material::figures(now), q = material::figures(was);
        for (std::size_t i = 0; i < p.size(); ++i) {
            INFO(id << " " << p[i].key);
            if (p[i].figure) CHECK(p[i].figure->value == q[i].figure->value);
            if (p[i].spectrum) CHECK(p[i].spectrum->values.values == q[i].spectrum->values.values);
        }
    }
}

TEST_CASE("every figure of how coats go in has a coordinate where it can tell, and none where it cannot") {
    auto sanded = coat_step("waterborne-acrylic", 2);
    sanded.sand = 320;
    auto stain =
        step_of({{"red-iron-oxide", schedule::Amount::percent_weight, 3}, {"oil-varnish", schedule::Amount::rest, 0}},
                1, material::Method::wipe);
    const auto w = color::make_weights(light("D65"), observer("2deg"));
    const auto uptakes = [&](const std::vector<schedule::Finish>& all, const Knowledge& known) {
        const UncertainFigures f(whole_library(), "hard-maple", all, w, known);
        std::set<std::string> out;
        for (const auto& c : f.coordinates())
            if (c.name.rfind("uptake/", 0) == 0) out.insert(c.name.substr(7));
        return out;
    };
    std::set<std::string> due, readied, always;
    for (const auto& f : schedule::uptake_figures()) {
        due.insert(f.name);
        if (f.tells != schedule::Tells::pigment) readied.insert(f.name);
        if (f.tells != schedule::Tells::pigment && f.tells != schedule::Tells::readied) always.insert(f.name);
    }
    CHECK(uptakes({{"a", {stain, sanded}}}, {}) == due);
    CHECK(uptakes({{"a", {sanded}}}, {}) == readied);
    auto oiled = step_of({{"boiled-linseed", schedule::Amount::parts, 1}}, 1, material::Method::wipe);
    CHECK(uptakes({{"a", {oiled}}}, {}) == always);
    Knowledge sure;
    sure.uptake = 0;
    CHECK(uptakes({{"a", {stain, sanded}}}, sure).empty());
}
