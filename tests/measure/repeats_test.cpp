#include <catch2/catch.hpp>

#include "foretone/measure/repeats.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

namespace {

color::Weights d65() { return color::make_weights(light("D65"), observer("2deg")); }

Reading grey(const std::string& name, double level) {
    Reading r;
    r.name = name;
    r.reflectance = spectral::Sampled::regular(380, 10, std::vector<double>(41, level));
    return r;
}

Reading lab(const std::string& name, color::Lab value) {
    Reading r;
    r.name = name;
    r.lab = value;
    r.light = "D65";
    r.observer = "2deg";
    return r;
}

}  // namespace

TEST_CASE("repeats of one patch become their mean, and a single reading stays as it is") {
    Readings in{"CSV", {}, {grey("oak", 0.30), grey("ash", 0.50), grey("oak", 0.34)}, {}};
    const auto out = average_repeats(in, d65());
    REQUIRE(out.readings.size() == 2);
    CHECK(out.readings[0].name == "oak");
    CHECK(out.readings[0].repeats == 2);
    for (const double v : out.readings[0].reflectance->value) CHECK_THAT(v, Near(0.32, identity));
    CHECK(out.readings[1].repeats == 1);
    CHECK_FALSE(out.readings[1].spread_de);
    REQUIRE(out.notes.size() == 1);
    CHECK(out.notes[0].id == "repeats-averaged");
}

TEST_CASE("the spread of repeats is the standard deviation of a single reading") {
    // Lightness alone, about the mean L* = 50: S_L = 1 there, so that ΔE00 = ΔL* (to first order in 0.015·(ΔL/2)²/√20,
    // under 1e-3). Computed: deviations −1, 0, +1, so that sqrt(2 / (3 − 1)) = 1.
    const auto out =
        average_repeats({"CSV", {}, {lab("x", {49, 0, 0}), lab("x", {50, 0, 0}), lab("x", {51, 0, 0})}, {}}, d65());
    REQUIRE(out.readings.size() == 1);
    CHECK_THAT(out.readings[0].lab->l, Near(50, identity));
    CHECK_THAT(*out.readings[0].spread_de, Near(1, 1e-3));
}

TEST_CASE("repeats at other wavelengths are read at the first one's") {
    auto fine = grey("oak", 0.30);
    fine.reflectance = spectral::Sampled::regular(360, 5, std::vector<double>(85, 0.40));
    const auto out = average_repeats({"CSV", {}, {grey("oak", 0.30), fine}, {}}, d65());
    REQUIRE(out.readings.size() == 1);
    CHECK(out.readings[0].reflectance->wavelength_nm.size() == 41);
    CHECK_THAT(out.readings[0].reflectance->value[20], Near(0.35, identity));
}

TEST_CASE("readings that differ in a tag, a light or what they hold are no repeats") {
    auto coated = grey("oak", 0.30);
    coated.tags["coats"] = "1";
    auto other_light = lab("oak", {50, 5, 5});
    other_light.light = "A";
    const auto out =
        average_repeats({"CSV", {}, {grey("oak", 0.30), coated, lab("oak", {50, 5, 5}), other_light}, {}}, d65());
    CHECK(out.readings.size() == 4);
    CHECK(out.notes.empty());
}

TEST_CASE("every component of a color is the mean of its repeats") {
    auto first = lab("x", {50, 2, -4}), second = lab("x", {54, 6, 8});
    first.xyz = color::Xyz{10, 20, 30};
    second.xyz = color::Xyz{14, 26, 38};
    const auto out = average_repeats({"CSV", {}, {first, second}, {}}, d65());
    REQUIRE(out.readings.size() == 1);
    const auto& mean = out.readings[0];
    CHECK_THAT(mean.lab->l, Near(52, identity));
    CHECK_THAT(mean.lab->a, Near(4, identity));
    CHECK_THAT(mean.lab->b, Near(2, identity));
    CHECK_THAT(mean.xyz->x, Near(12, identity));
    CHECK_THAT(mean.xyz->y, Near(23, identity));
    CHECK_THAT(mean.xyz->z, Near(34, identity));
}
