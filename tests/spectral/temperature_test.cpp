#include "foretone/spectral/temperature.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::spectral;
using namespace foretone::test;

namespace {

// Largest difference from a table over its own wavelengths, both 100 at 560 nm.
double off(const Illuminant& made, const Sampled& table, double first_nm, double last_nm) {
    const double scale = 100 / linear_at(table, 560);
    double worst = 0;
    for (std::size_t i = 0; i < table.wavelength_nm.size(); ++i) {
        const double nm = table.wavelength_nm[i];
        if (nm < first_nm || nm > last_nm) continue;
        const double d = std::abs(linear_at(made.power, nm) - scale * table.value[i]);
        worst = d <= worst ? worst : d;
    }
    return worst;
}

}  // namespace

TEST_CASE("daylight of 6504 K is the published D65, and 5003 and 5503 K are D50 and D55") {
    // ISO/CIE 11664-2, as packed in colord-data: two decimals above 100, three below (the file carries six digits);
    // the tables rest on components rounded as in CIE 15:2018, so that half a unit of the last printed place remains.
    Sampled d65;
    for (const auto& r : table("d65_300_830.csv")) {
        d65.wavelength_nm.push_back(r.number("wavelength_nm"));
        d65.value.push_back(r.number("power"));
    }
    CHECK_THAT(off(phase_of_daylight(6504), d65, 300, 830), Near(0, 0.05));
    CHECK_THAT(off(phase_of_daylight(5003), light("D50").power, 380, 780), Near(0, 0.05));
    CHECK_THAT(off(phase_of_daylight(5503), light("D55").power, 380, 780), Near(0, 0.05));
}

TEST_CASE("a black body of 2855.5 K is illuminant A") {
    // CIE 15:2018: A is a black body of 2856 K on the scale of 1968 with c2 = 1.4350e-2 at 2848 K,
    // so 2848 · 1.4387769/1.4350 = 2855.5 K here. The file prints six digits.
    const double kelvin = 2848 * 1.438776877 / 1.4350;
    CHECK_THAT(off(planckian(kelvin), light("A").power, 300, 830), Near(0, 1e-3));
}

TEST_CASE("the hotter, the bluer: power at 450 nm against 650 nm rises with the temperature, also across 7000 K") {
    const auto ratio = [](const Illuminant& l) { return linear_at(l.power, 450) / linear_at(l.power, 650); };
    double before = 0;
    for (double t = 4000; t <= 25000; t += 250) {
        const double now = ratio(phase_of_daylight(t));
        CHECK(now > before);
        before = now;
    }
    before = 0;
    for (double t = 1000; t <= 20000; t += 500) {
        const double now = ratio(planckian(t));
        CHECK(now > before);
        before = now;
    }
    // The two formulas of x_D meet at 7000 K to the last decimals they are printed with.
    CHECK_THAT(ratio(phase_of_daylight(7000)) / ratio(phase_of_daylight(7000.001)), Near(1, 2e-3));
}

TEST_CASE("an id of a temperature is told from the name of a table") {
    CHECK(temperature_light("D5500")->kelvin == 5500);
    CHECK(temperature_light("D5500")->family == 'D');
    CHECK(temperature_light("P2700")->family == 'P');
    CHECK(temperature_light("P927")->kelvin == 927);
    CHECK_FALSE(temperature_light("P927")->in_range());
    CHECK(temperature_light("D25000")->in_range());
    CHECK_FALSE(temperature_light("D3999")->in_range());
    for (const char* other : {"D65", "D50", "A", "F11", "D65x0", "D", "P", "P27000000", "LED-B1", "d5500", ""})
        CHECK_FALSE(temperature_light(other).has_value());
}

TEST_CASE("a light of a temperature carries its id, is 100 at 560 nm, and has power everywhere") {
    for (const char* id : {"D4000", "D7000", "D25000", "P1000", "P2700", "P20000"}) {
        const auto l = make_light(*temperature_light(id));
        CHECK(l.id == id);
        CHECK_THAT(linear_at(l.power, 560), Near(100, closed_form));
        check(l.power);
        for (const double v : l.power.value) CHECK(v >= 0);
    }
    CHECK_THROWS_AS(phase_of_daylight(3999), std::invalid_argument);
    CHECK_THROWS_AS(phase_of_daylight(std::nan("")), std::invalid_argument);
    CHECK_THROWS_AS(planckian(999), std::invalid_argument);
    CHECK_THROWS_AS(make_light({'P', 20001}), std::invalid_argument);
}
