// What spotread prints, with its spectrum before or behind the result.

#include <catch2/catch.hpp>

#include "foretone/measure/read.hpp"
#include "measure/refusals.hpp"
#include "measure/texts.hpp"

using namespace foretone;
using namespace foretone::measure;
using namespace foretone::test;

namespace {

const std::string result = " Result is XYZ: 27.86 27.41 17.44, D50 Lab: 59.35 8.6 16.93\n";

std::string printed_spectrum(int bands = 31) {
    std::string out = "Spectrum from 400.0 to 700.0 nm in " + std::to_string(bands) + " steps\n";
    for (int i = 0; i < bands; ++i)
        out += (i ? ", " : "") + base::shortest(100 * wood_like(400 + 300.0 * i / (bands - 1)));
    return out + "\n";
}

}  // namespace

TEST_CASE("a spectrum that is printed before its result belongs to it, and one behind the last result to that one") {
    for (const auto& text : {printed_spectrum() + result, result + printed_spectrum()}) {
        const auto r = read(text);
        REQUIRE(r.readings.size() == 1);
        REQUIRE(r.readings[0].reflectance);
        CHECK(r.readings[0].reflectance->value.size() == 31);
        CHECK(worst_off(r.readings[0]) < 1e-9);
    }
    // Of two results each has the spectrum before it; one too many behind a result that has its own is left.
    const auto two = read(printed_spectrum() + result + printed_spectrum() + result);
    REQUIRE(two.readings.size() == 2);
    CHECK(two.readings[1].reflectance.has_value());
    CHECK(read(printed_spectrum() + result + printed_spectrum()).readings.size() == 1);
}

TEST_CASE("a spectrum of spotread is as many values as it says, over as many lines as it takes") {
    auto text = printed_spectrum() + result;
    for (std::size_t at = 120; at < 200; ++at)
        if (text[at] == ',' && text[at + 1] == ' ') text[at + 1] = '\n';
    CHECK(worst_off(read(text).readings.at(0)) < 1e-9);
    const auto refused = [](const std::string& all) { return refused_as([&] { read(all); }); };
    CHECK(refused("Spectrum from 400.0 to 700.0 nm in 3 steps\n15, 20, 25, 30\n" + result).substr(0, 15) ==
          "2:1 argyll-resu");
    CHECK(refused("Spectrum from 700.0 to 400.0 nm in 31 steps\n15\n" + result).substr(0, 15) == "1:1 argyll-resu");
    CHECK(refused("Spectrum from 400.0 to 700.0 nm in 1 steps\n15\n" + result).substr(0, 15) == "1:1 argyll-resu");
}
