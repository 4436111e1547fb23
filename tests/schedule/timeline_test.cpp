#include <catch2/catch.hpp>

#include "foretone/schedule/timeline.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

material::YesNo yes() { return {true, material::Sure::practice, "invented for the tests"}; }

// A waterborne film (2–24 h), an oil that cures in 10 days, a resin that re-melts (1 h).
material::Materials materials_with_waits() {
    auto materials = small_materials();
    auto& film = materials["varnish"].order;
    film.redissolved_by = material::Words{{}, material::Sure::practice, "invented"};
    film.recoat_early_h = figure(2);
    film.recoat_late_h = figure(24);
    film.cure_days = figure(7);
    film.needs_scuff = yes();
    film.sticks_not_to["uncured-oil"] = yes();
    auto& oil = materials["oil"].order;
    oil.holds_wax = material::YesNo{false, material::Sure::practice, "invented"};
    oil.recoat_early_h = figure(24);
    oil.cure_days = figure(10);
    auto& resin = materials["resin"].order;
    resin.redissolved_by = material::Words{{"alcohol"}, material::Sure::practice, "invented"};
    resin.recoat_early_h = figure(1);
    return materials;
}

Step put(const std::string& id, int coats = 1) {
    Step s;
    s.mix = {{id, Amount::parts, 1}};
    s.coats = coats;
    return s;
}

}  // namespace

TEST_CASE("waits are as stated at 20 C and 50 %, double ten degrees colder, half ten warmer") {
    CHECK_THAT(drying_factor({20, 50}, true), Near(1, identity));
    CHECK_THAT(drying_factor({10, 50}, false), Near(2, identity));
    CHECK_THAT(drying_factor({30, 50}, true), Near(0.5, identity));
}

TEST_CASE("damp air lengthens a wait, for water twice as much as for all else, and dry air is given no credit") {
    CHECK_THAT(drying_factor({20, 100}, true), Near(2, identity));
    CHECK_THAT(drying_factor({20, 100}, false), Near(1.5, identity));
    CHECK_THAT(drying_factor({20, 10}, true), Near(1, identity));
}

TEST_CASE("impossible air is refused, and hard air is said") {
    const auto fault = [](Air air) {
        try {
            check(air);
        } catch (const Fault& f) {
            return f.id;
        }
        return std::string();
    };
    CHECK(fault({20, -1}) == "humidity-range");
    CHECK(fault({20, 100.5}) == "humidity-range");
    CHECK(fault({4, 50}) == "temperature-range");
    CHECK(fault({41, 50}) == "temperature-range");
    CHECK(fault({5, 100}).empty());
    CHECK(air_notes({20, 50}).empty());
    CHECK(air_notes({10, 80}).size() == 2);
    CHECK(air_notes({35, 50}).size() == 1);
}

TEST_CASE("coats follow each other at the earliest, and the last one's drying ends the time") {
    const auto t = timeline({"x", {put("varnish", 3)}}, materials_with_waits(), {});
    REQUIRE(t.coats.size() == 3);
    CHECK(t.coats[2].at_h == 4);
    CHECK(t.elapsed_h == 6);
    CHECK(*t.coats[0].latest_h == 24);
    CHECK(*t.cured_days == 7);
    CHECK(t.coats[1].before.find("sand lightly") == 0);
    CHECK_THAT(timeline({"x", {put("varnish", 3)}}, materials_with_waits(), {10, 100}).elapsed_h,
               Near(24, closed_form));  // twice for cold, twice for damp
}

TEST_CASE("an oil is left to cure below what does not hold on to it, and not below what does") {
    CHECK(timeline({"x", {put("oil"), put("varnish")}}, materials_with_waits(), {}).coats[1].at_h == 240);
    CHECK(timeline({"x", {put("oil"), put("resin")}}, materials_with_waits(), {}).coats[1].at_h == 24);
    CHECK(timeline({"x", {put("oil")}}, materials_with_waits(), {}).coats[0].wipe_min == 15);
}

TEST_CASE("days that a step says are kept when longer, and past the window the layer is scuffed") {
    auto late = put("varnish");
    late.after_days = 3;
    const auto t = timeline({"x", {put("varnish"), late}}, materials_with_waits(), {});
    CHECK(t.coats[1].at_h == 72);
    CHECK(t.coats[1].before.find("the window has shut") == 0);
    late.after_days = 0.01;
    CHECK(timeline({"x", {put("varnish"), late}}, materials_with_waits(), {}).coats[1].at_h == 2);
}

TEST_CASE("what re-melts has no latest time and no sanding but of nibs") {
    const auto t = timeline({"x", {put("resin", 2)}}, materials_with_waits(), {});
    CHECK_FALSE(t.coats[0].latest_h);
    CHECK(t.coats[1].before.find("nibs only") != std::string::npos);
    CHECK(t.coats[0].wipe_min == 0);
}
