// What a heading says beside its column's name.

#include "../../src/measure/heading.hpp"

#include <catch2/catch.hpp>

using namespace foretone;
using namespace foretone::measure;

TEST_CASE("a heading's light is any that is known by a letter, D and two digits, F and its number, or LED") {
    const auto light = [](const std::string& heading) {
        const auto h = undress(heading);
        return h ? h->light : std::string("none");
    };
    CHECK(light("L* (D65/10)") == "D65");
    CHECK(light("L*(D50)") == "D50");
    CHECK(light("L* (A/2)") == "A");
    CHECK(light("L* (C)") == "C");
    CHECK(light("L* (F2)") == "F2");
    CHECK(light("L* (F11/10)") == "F11");
    CHECK(light("L* (LED-B3)") == "LED-B3");
    // All that a bracket holds must be understood.
    CHECK(light("L* (F112)") == "none");
    CHECK(light("L* (F)") == "none");
    CHECK(light("L* (G11)") == "none");
    CHECK(light("L* (FX)") == "none");
    CHECK(light("L* (D5)") == "none");
    CHECK(light("L* (D655)") == "none");
    CHECK(light("L* (LED-)") == "none");
    CHECK(light("L* (board 3)") == "none");
}

TEST_CASE("a heading's bracket may say percent or fraction, observer and geometry; what is left is the column") {
    const auto r = undress("R400nm [%]");
    REQUIRE(r);
    CHECK(r->base == "R400nm");
    CHECK(r->percent == true);
    CHECK(undress("R400nm [0-1]")->percent == false);
    CHECK(undress("L*(D65/10°)")->observer == "10deg");
    CHECK(undress("L*(D65/2°)")->observer == "2deg");
    CHECK(undress("L* SCI D65 10deg")->geometry == optics::Geometry::d8_included);
    CHECK(undress("L* SCE D65 10deg")->geometry == optics::Geometry::d8_excluded);
    CHECK_FALSE(undress("L*"));
}
