#include <catch2/catch.hpp>
#include <cmath>
#include <limits>

#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/pot.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

Step step_of(std::vector<Part> parts) {
    Step s;
    s.mix = std::move(parts);
    return s;
}

}  // namespace

TEST_CASE("parts scaled to a pot keep their ratio and fill it") {
    const auto step = step_of({{"stock", Amount::parts, 3}, {"water", Amount::parts, 37}});
    const auto parts = amounts(step, small_materials(), 800);
    REQUIRE(parts.size() == 2);
    CHECK_THAT(parts[0].ml, Near(60, closed_form));
    CHECK_THAT(parts[1].ml, Near(740, closed_form));
    CHECK_THAT(parts[0].g, Near(60 * 1.02, closed_form));  // 20 g of powder in its litre
    CHECK_THROWS_AS(amounts(step, small_materials(), 0), std::invalid_argument);
    CHECK_THROWS_AS(amounts(step, small_materials(), std::numeric_limits<double>::infinity()), std::invalid_argument);
}

TEST_CASE("an area takes wet film times area times coats, and what the method loses") {
    auto step = step_of({{"varnish", Amount::parts, 1}});
    step.wet_um = 100;
    step.coats = 2;
    step.method = material::Method::brush;
    CHECK_THAT(ml_for_area(step, small_materials(), 3), Near(100 * 3 * 2 / 0.9, closed_form));
    step.method = material::Method::spray;
    CHECK_THAT(ml_for_area(step, small_materials(), 3), Near(1000, closed_form));
    CHECK_THROWS_WITH(ml_for_area(step, small_materials(), -3), Catch::Contains("-3 m2 is no area"));
}

TEST_CASE("measures are whole steps of the tools, at most half a step off") {
    auto step = step_of({{"stock", Amount::parts, 3}, {"water", Amount::parts, 1}, {"dye", Amount::g_per_l, 7}});
    double worst = 0;
    for (double ml = 40; ml < 400; ml += 7.3) {
        const auto p = pot(step, small_materials(), ml);
        for (const auto& m : p.measures) {
            const double tool = m.weighed ? 0.1 : 0.5;
            worst = worst_of(worst, std::abs(m.measured - m.exact) / tool);
            worst = worst_of(worst, 0.5 * std::abs(m.measured / tool - std::round(m.measured / tool)) / 1e-9);
        }
    }
    CHECK(worst <= 0.5 + 1e-9);
}

TEST_CASE("a resin pot is flakes weighed and alcohol drawn up, and the step says the cut they make") {
    auto step = step_of({{"resin", Amount::parts, 1}});
    step.cut_lb = 1.5;
    const auto p = pot(step, small_materials(), 100, {1, 5});
    REQUIRE(p.measures.size() == 2);
    CHECK(p.measures[0].weighed);
    CHECK(p.measures[1].id == "alcohol");
    CHECK_THAT(p.measures[0].exact, Near(15.54, 0.005));  // shellac_pound_cut.csv: 155.4 g/L of solution
    CHECK(p.measures[0].measured == 16);
    CHECK(p.measures[1].measured == 85);  // 86.48 exactly
    CHECK_THAT(*p.step.cut_lb, Near(16.0 / 85 * 1000 / cut_of(1).g_per_l_alcohol, closed_form));
    CHECK_THAT(p.measured_ml, Near(85 + 16 / 1.15, closed_form));
}

TEST_CASE("a measured pot's mix is the written one but for rounding: fine tools give the same mixture") {
    auto step = step_of({{"stock", Amount::parts, 3}, {"water", Amount::parts, 7}, {"dye", Amount::g_per_l, 2.5}});
    const auto a = mix(step, small_materials()),
               b = mix(pot(step, small_materials(), 500, {1e-7, 1e-7}).step, small_materials());
    REQUIRE(b.powders.size() == 1);
    CHECK_THAT(b.powders[0].g_per_l, Near(a.powders[0].g_per_l, 1e-6));
    CHECK_THAT(b.density_g_per_ml, Near(a.density_g_per_ml, 1e-9));
}

TEST_CASE("what is too little to measure is said, and a pot of nothing refused") {
    const auto step = step_of({{"varnish", Amount::parts, 100}, {"dye", Amount::g_per_l, 1}});
    const auto p = pot(step, small_materials(), 10);
    REQUIRE(p.notes.size() == 1);
    CHECK(p.notes[0].find("11 times as large") != std::string::npos);  // a little under 0.01 g on a scale of 0.1 g
    CHECK(p.step.mix.size() == 1);
    try {
        pot(step, small_materials(), 0.2);
        FAIL("not refused");
    } catch (const Fault& f) {
        CHECK(f.id == "pot-too-small");
    }
}

TEST_CASE("a ready cut is drawn up and thinned to the cut wanted") {
    auto step = step_of({{"resin", Amount::parts, 1}});
    step.cut_lb = 1;
    step.ready_cut_lb = 3;
    const auto p = pot(step, small_materials(), 1000, {0.001, 0.001});
    REQUIRE(p.measures.size() == 2);
    CHECK_FALSE(p.measures[0].weighed);
    CHECK_THAT(p.measures[1].exact / p.measures[0].exact, Near(thinning_parts(3, 1, gal_per_lb(1.15)), closed_form));
    CHECK_THAT(*p.step.cut_lb, Near(1, 1e-5));
    CHECK_THAT(p.measured_ml, Near(1000, 0.01));
}
