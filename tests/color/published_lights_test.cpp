#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "foretone/color/xyz.hpp"
#include "foretone/spectral/temperature.hpp"
#include "color/five_nm_sum.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::color;
using namespace foretone::test;

namespace {

double chromaticity_off(const Xyz& c, double x, double y) {
    const double sum = c.x + c.y + c.z;
    return std::max(std::abs(c.x / sum - x), std::abs(c.y / sum - y));
}

}  // namespace

// illuminant_chromaticities.csv: x_2, y_2 as CIE 15:2018 prints them (four decimals); x_10, y_10 worked out at 1 nm in
// colour-science (BSD-3-Clause, chromaticity_coordinates.py, commit 9d743142), to six decimals.
TEST_CASE("the LED illuminants and FL3.x have the chromaticities that CIE 15:2018 prints") {
    const auto o = observer("2deg");
    int lights = 0;
    for (const auto& r : table("illuminant_chromaticities.csv")) {
        const auto id = r.text("illuminant");
        INFO(id);
        // Four printed decimals, half a unit and the rounding of the tables' own digits.
        CHECK_THAT(chromaticity_off(five_nm_sum(light(id), o), r.number("x_2"), r.number("y_2")), Near(0, 1e-4));
        ++lights;
    }
    CHECK(lights == 24);
}

TEST_CASE("the same at ten degrees, summed at 1 nm as another program sums them") {
    const auto o = observer("10deg");
    for (const auto& r : table("illuminant_chromaticities.csv")) {
        const auto id = r.text("illuminant");
        INFO(id);
        // That program adds nothing beyond 380 and 780 nm; holding the ends moves x or y by up to 3e-4 (see the white
        // points of F2 to F11).
        CHECK_THAT(chromaticity_off(white_by_summation(light(id), o), r.number("x_10"), r.number("y_10")),
                   Near(0, 5e-4));
    }
}

TEST_CASE("the names of the lamps lead to the published light whose temperature is nearest") {
    struct Name {
        const char *name, *is;
    };
    for (const auto& n : {Name{"LED-2700", "LED-B1"}, {"LED-4000", "LED-B3"}, {"LED-5000", "LED-B4"}}) {
        const auto a = light(n.name), b = light(n.is);
        CHECK(a.id == n.name);
        CHECK(a.power.value == b.power.value);
        // Nearest of the phosphor-converted ones by u, v to the black body of that name's temperature.
        const double kelvin = std::stod(std::string(n.name).substr(4));
        const auto black = white_by_summation(spectral::planckian(kelvin), observer("2deg"));
        const auto distance = [&](const char* id) {
            const auto uv = [](const Xyz& c) {
                const double d = c.x + 15 * c.y + 3 * c.z;
                return std::pair(4 * c.x / d, 6 * c.y / d);
            };
            const auto p = uv(black), q = uv(white_by_summation(light(id), observer("2deg")));
            return std::hypot(p.first - q.first, p.second - q.second);
        };
        for (const char* other : {"LED-B1", "LED-B2", "LED-B3", "LED-B4", "LED-B5"})
            if (std::string(other) != n.is) CHECK(distance(n.is) < distance(other));
    }
}
