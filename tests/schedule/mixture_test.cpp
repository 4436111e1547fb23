#include <catch2/catch.hpp>

#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/units.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

Mixture mixed(std::vector<Part> parts, std::optional<double> cut = std::nullopt) {
    Step step;
    step.mix = std::move(parts);
    step.cut_lb = cut;
    return mix(step, small_materials());
}

std::string fault_of(std::vector<Part> parts, std::optional<double> cut = std::nullopt) {
    try {
        mixed(std::move(parts), cut);
    } catch (const Fault& f) {
        return f.id;
    }
    return "none";
}

}  // namespace

TEST_CASE("one part of stock in ten holds a tenth of its powder") {
    const auto m = mixed({{"stock", Amount::parts, 1}, {"water", Amount::parts, 9}});
    REQUIRE(m.powders.size() == 1);
    CHECK_THAT(m.powders[0].g_per_l, Near(2, identity));
    CHECK(m.carrier == "water");
    CHECK(m.solids_share() == 0);
}

TEST_CASE("the same mix said in different units is the same mix") {
    // 20 g/L by the litre, by the ounce and quart, by weight and by absolute grams and millilitres; powder volume 1.5
    // g/mL.
    const double expected = 20 / (1 + 20 / 1.5 / 1000);
    for (const auto& parts : {std::vector<Part>{{"dye", Amount::g_per_l, 20}, {"water", Amount::parts, 1}},
                              {{"dye", Amount::oz_per_qt, 20 / g_per_l_from_oz_per_qt(1)}, {"water", Amount::ml, 500}},
                              {{"dye", Amount::parts_weight, 20}, {"water", Amount::parts_weight, 1000}},
                              {{"dye", Amount::g, 5}, {"water", Amount::ml, 250}},
                              {{"dye", Amount::g, 0.1}, {"water", Amount::drops, 100}},
                              {{"dye", Amount::percent_weight, 100 * 20 / 1020.0}, {"water", Amount::rest, 1}}})
        CHECK_THAT(mixed(parts).powders.at(0).g_per_l, Near(expected, closed_form));
}

TEST_CASE("thinning a varnish one to one halves its solids") {
    const auto m = mixed({{"varnish", Amount::parts, 1}, {"water", Amount::parts, 1}});
    CHECK_THAT(m.solids_share(), Near(0.25, identity));
}

TEST_CASE("a resin is dissolved to its cut, by definition of the pound cut") {
    // 2 lb/gal: 239.7 g per litre of alcohol, 17.25 % by volume dry (computed, resin density 1.15).
    CHECK_THAT(mixed({{"resin", Amount::parts, 1}}, 2.0).solids_share(), Near(0.1725, 5e-5));
    const auto assumed = mixed({{"resin", Amount::parts, 1}});
    CHECK_THAT(assumed.solids_share(), Near(0.1725, 5e-5));
    REQUIRE(assumed.notes.size() == 1);  // and it is said
    CHECK(assumed.notes[0].find("2.0-lb cut") != std::string::npos);
}

TEST_CASE("percent by volume with a rest") {
    const auto m = mixed({{"varnish", Amount::rest, 1}, {"water", Amount::percent_volume, 20}});
    CHECK_THAT(m.solids_share(), Near(0.4, identity));
}

TEST_CASE("what cannot be mixed is refused, each with its own id") {
    CHECK(fault_of({{"nothing", Amount::parts, 1}}) == "material-unknown");
    CHECK(fault_of({{"wood", Amount::parts, 1}}) == "mix-not-a-finish");
    CHECK(fault_of({{"dye", Amount::parts, 1}, {"water", Amount::parts, 9}}) == "mix-powder-by-volume");
    CHECK(fault_of({{"dye", Amount::g_per_l, 5}}) == "mix-dry");
    CHECK(fault_of({{"varnish", Amount::g_per_l, 5}}) == "mix-load");
    CHECK(fault_of({{"varnish", Amount::parts, 1}, {"water", Amount::ml, 9}}) == "mix-units");
    CHECK(fault_of({{"varnish", Amount::percent_volume, 50}, {"water", Amount::percent_volume, 20}}) == "mix-percent");
    CHECK(fault_of({{"varnish", Amount::rest, 1}, {"water", Amount::rest, 1}}) == "mix-percent");
    CHECK(fault_of({{"varnish", Amount::rest, 1}, {"water", Amount::percent_volume, 100}}) == "mix-percent");
    CHECK(fault_of({{"varnish", Amount::parts, 1}}, 2.0) == "cut-without-resin");
    CHECK(fault_of({}) == "step-empty");
}

TEST_CASE("a dye in a liquid that does not dissolve it is noted") {
    const auto m = mixed({{"dye", Amount::g_per_l, 5}, {"alcohol", Amount::parts, 1}});
    REQUIRE(m.notes.size() == 1);
    CHECK(m.notes[0].find("does not dissolve in alcohol") != std::string::npos);
}
