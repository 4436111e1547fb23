#include <catch2/catch.hpp>

#include "foretone/color/xyz.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::color;
using namespace foretone::test;

namespace {

// The practice's sample: 400–700 nm at 5 nm, zero outside, listed from 340 to 830 nm with its zeros.
spectral::Sampled sample() {
    spectral::Sampled s;
    for (const auto& r : table("astm_e308_sample.csv")) {
        s.wavelength_nm.push_back(r.number("nm"));
        s.value.push_back(r.number("R"));
    }
    return s;
}

struct Case {
    const char *light, *observer;
    Xyz summation, weights;
};

// ASTM E308, worked example. For C and F2 one figure is printed for both methods.
const Case cases[] = {
    {"A", "2deg", {14.46341, 10.85820, 2.04696}, {14.46342, 10.85820, 2.04697}},
    {"C", "10deg", {10.77006, 9.44877, 6.62428}, {10.77006, 9.44877, 6.62428}},
    {"F2", "10deg", {11.57543, 9.98606, 3.95273}, {11.57543, 9.98606, 3.95273}},
};

void check_near(const Xyz& c, const Xyz& expected, double tolerance) {
    CHECK_THAT(c.x, Near(expected.x, tolerance));
    CHECK_THAT(c.y, Near(expected.y, tolerance));
    CHECK_THAT(c.z, Near(expected.z, tolerance));
}

}  // namespace

// The lights are their 5 nm tables with straight lines between, the reflectance is interpolated by the cubic, over
// 360–830 nm. Agreement reached: 2e-5 by summation (one unit of the last printed digit for A), 1e-5 by weights.
TEST_CASE("the sample of ASTM E308 is reproduced by summation") {
    for (const auto& c : cases) {
        INFO(c.light << "/" << c.observer);
        check_near(xyz_by_summation(sample(), light(c.light), observer(c.observer)), c.summation, 2e-5);
    }
}

TEST_CASE("the sample of ASTM E308 is reproduced by 5 nm weights") {
    const auto grid = spectral::to_grid(sample());
    CHECK_FALSE(grid.resampled);
    for (const auto& c : cases) {
        INFO(c.light << "/" << c.observer);
        check_near(xyz(grid.spectrum, make_weights(light(c.light), observer(c.observer))), c.weights, 1e-5);
    }
}
