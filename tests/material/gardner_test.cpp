#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/color/xyz.hpp"
#include "foretone/material/gardner.hpp"
#include "foretone/material/optics_of.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// Chromaticity of a tube of liquid seen through, illuminant C, 2° observer.
std::pair<double, double> tube_xy(const spectral::Spectrum& absorption_per_mm, double binder_share) {
    spectral::Spectrum t;
    for (std::size_t i = 0; i < t.size(); ++i)
        t[i] = std::exp(-absorption_per_mm[i] * binder_share * 10 * material::gardner_path_cm);
    const auto c = color::xyz(t, color::make_weights(light("C"), observer("2deg")));
    const double sum = c.x + c.y + c.z;
    return {c.x / sum, c.y / sum};
}

material::Binder binder(double gardner, double share) {
    material::Binder b;
    b.gardner = material::Figure{gardner, 0, {}};
    b.gardner_solids_volume_percent = material::Figure{100 * share, 0, {}};
    return b;
}

}  // namespace

TEST_CASE("a film's absorption, thinned back into a 10.65 mm tube, has the chromaticity of its Gardner number") {
    // Expected x, y: ASTM D1544-04 Table 1. The test liquid's share of binder must cancel: 14.6 % is a 20 % shellac
    // solution.
    for (const double share : {1.0, 0.45, 0.146})
        for (const auto& row : table("gardner_astm_d1544.csv")) {
            const auto [x, y] = tube_xy(material::absorption_per_mm(binder(row.number("gardner"), share)), share);
            INFO("Gardner " << row.text("gardner") << ", binder share " << share);
            CHECK_THAT(x, Near(row.number("x_illC_2deg"), fit));
            CHECK_THAT(y, Near(row.number("y"), fit));
        }
}

TEST_CASE("the two-parameter fit is off by at most 0.005 in x or y, as its header says") {
    double worst = 0;
    for (const auto& row : table("gardner_astm_d1544.csv")) {
        const auto [x, y] = tube_xy(material::absorption_per_mm(binder(row.number("gardner"), 1)), 1);
        worst = worst_of({worst, std::abs(x - row.number("x_illC_2deg")), std::abs(y - row.number("y"))});
    }
    CHECK(worst <= 0.005);
    CHECK(worst > 0.001);  // it is a fit, not the table itself
}

TEST_CASE("between numbers the color goes steadily from one to the next") {
    double last = 0;
    for (double g = 1; g <= 18; g += 0.25) {
        const double x = tube_xy(material::absorption_per_mm(binder(g, 1)), 1).first;
        INFO("Gardner " << g);
        CHECK(x > last);
        last = x;
    }
}

TEST_CASE("a Gardner number outside 1 to 18 is refused") {
    CHECK_THROWS_AS(material::gardner_fit(0.9), std::invalid_argument);
    CHECK_THROWS_AS(material::gardner_fit(18.1), std::invalid_argument);
    CHECK_THROWS_AS(material::gardner_fit(std::nan("")), std::invalid_argument);
}
