/// What oil under a waterborne film does to a dark wood, and which figure decides it.

#include <catch2/catch.hpp>
#include <cmath>

#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;
using color::Lab;

namespace {

Lab finished(const std::string& steps) {
    return worked("format = 1\n[wood]\nuse = \"walnut\"\n[[finish]]\nname = \"x\"\n" + steps)
        .finishes[0]
        .stages.back()
        .colors[0]
        .lab;
}

const std::string oil = "[[finish.step]]\nuse = \"boiled-linseed\"\n";
const std::string film = "[[finish.step]]\nuse = \"waterborne-acrylic\"\ncoats = 2\nafter_days = 14\n";

double chroma(const Lab& c) { return std::hypot(c.a, c.b); }

}  // namespace

TEST_CASE("linseed under waterborne leaves walnut darker, redder in hue and more saturated than waterborne alone") {
    // Common practice: oil first makes walnut warmer and deeper. C* itself falls with L*; what a finisher calls warm is
    // the hue and C* against L*.
    const Lab alone = finished(film), over_oil = finished(oil + film);
    INFO("alone " << alone.l << ' ' << alone.a << ' ' << alone.b << ", over oil " << over_oil.l << ' ' << over_oil.a
                  << ' ' << over_oil.b);
    CHECK(over_oil.l < alone.l);
    CHECK(std::atan2(over_oil.b, over_oil.a) < std::atan2(alone.b, alone.a));
    CHECK(chroma(over_oil) / over_oil.l > chroma(alone) / alone.l);
}

TEST_CASE("it is the pores' fill that darkens walnut under oil, not the oil's color") {
    const auto with = [](const std::string& figures) {
        return finished("[[finish.step]]\nuse = \"own\"\n" + film + "[material.own]\nkind = \"oil\"\n" + figures);
    };
    const Lab usual = with(""), colorless = with("gardner = 1\n"), deep = with("depth_um = 900\n");
    CHECK(std::abs(usual.l - colorless.l) < 0.2);
    CHECK(deep.l > usual.l + 1);  // the same oil, spread thin
}
