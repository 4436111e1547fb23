#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>

#include "foretone/spectral/sampled.hpp"
#include "support/tolerance.hpp"

using namespace foretone::spectral;
using namespace foretone::test;

namespace {

double cubic(double nm) {
    const double t = (nm - 550) / 100;
    return 0.4 + 0.2 * t - 0.15 * t * t + 0.07 * t * t * t;
}

double quadratic(double nm) {
    const double t = (nm - 550) / 100;
    return 0.4 + 0.2 * t - 0.15 * t * t;
}

template <class F>
Sampled sample(F f, std::vector<double> nm) {
    Sampled s;
    for (const double w : nm) s.value.push_back(f(w));
    s.wavelength_nm = std::move(nm);
    return s;
}

std::vector<double> every(double first, double step, double last) {
    std::vector<double> nm;
    for (int i = 0; first + step * i <= last; ++i) nm.push_back(first + step * i);
    return nm;
}

const std::vector<double> uneven{380, 397, 411, 430, 455, 470, 500, 525, 560, 590, 640, 660, 700, 780};

}  // namespace

TEST_CASE("the grid runs from 380 to 780 nm in 81 steps of 5 nm") {
    CHECK(grid_nm(0) == 380);
    CHECK(grid_nm(1) == 385);
    CHECK(grid_end_nm == 780);
    CHECK(Spectrum::size() == 81);
    CHECK(Spectrum::constant(0.5)[80] == 0.5);
}

TEST_CASE("the cubic reproduces a cubic exactly in inner intervals, evenly spaced or not") {
    for (const auto& nm : {every(380, 20, 780), uneven}) {
        const Sampled s = sample(cubic, nm);
        double worst = 0;
        for (double w = nm[1]; w <= nm[nm.size() - 2]; w += 0.37)
            worst = worst_of(worst, std::abs(cubic_at(s, w) - cubic(w)));
        CHECK_THAT(worst, Near(0, identity));
    }
}

TEST_CASE("in the first and last interval the interpolation is the quadratic of ASTM E2022") {
    const Sampled q = sample(quadratic, uneven);
    const Sampled c = sample(cubic, uneven);
    for (const double w : {381.0, 390.0, 396.5, 700.5, 733.0, 779.0}) {
        CHECK_THAT(cubic_at(q, w), Near(quadratic(w), identity));
        CHECK(std::abs(cubic_at(c, w) - cubic(w)) > 1e-6);  // a cubic is not reproduced there
    }
}

TEST_CASE("the straight line reproduces a line and stays between its neighbours") {
    const Sampled s{{400, 410, 450}, {1, 3, -1}};
    CHECK_THAT(linear_at(s, 405), Near(2, identity));
    CHECK_THAT(linear_at(s, 420), Near(2, identity));
    CHECK(linear_at(s, 410) == 3);
}

TEST_CASE("samples are returned unchanged, and end values are held outside the range") {
    const Sampled s = sample(cubic, uneven);
    bool same = true;
    for (std::size_t i = 0; i < uneven.size(); ++i) {
        same = same && cubic_at(s, uneven[i]) == s.value[i] && linear_at(s, uneven[i]) == s.value[i];
    }
    CHECK(same);
    CHECK(cubic_at(s, 300) == s.value.front());
    CHECK(cubic_at(s, 900) == s.value.back());
    CHECK(linear_at(s, 300) == s.value.front());
    CHECK(linear_at(s, 900) == s.value.back());
}

TEST_CASE("two samples give a line and three a parabola") {
    CHECK_THAT(cubic_at(Sampled{{400, 500}, {0, 1}}, 425), Near(0.25, identity));
    CHECK_THAT(cubic_at(sample(quadratic, {400, 480, 700}), 650), Near(quadratic(650), identity));
}

TEST_CASE("a grid spectrum goes to the grid and back bit for bit, with nothing flagged") {
    Spectrum s;
    for (std::size_t i = 0; i < grid_size; ++i) s[i] = cubic(grid_nm(i));
    const OnGrid g = to_grid(from_grid(s));
    CHECK(g.spectrum == s);
    CHECK_FALSE(g.resampled);
    CHECK_FALSE(g.held_below);
    CHECK_FALSE(g.held_above);
}

TEST_CASE("held ends and resampling are flagged, each on its own") {
    const OnGrid low = to_grid(sample(cubic, every(400, 5, 780)));
    CHECK(low.held_below);
    CHECK_FALSE(low.held_above);
    CHECK_FALSE(low.resampled);
    CHECK(low.spectrum[0] == cubic(400));
    CHECK(low.spectrum[4] == cubic(400));

    const OnGrid high = to_grid(sample(cubic, every(360, 5, 730)));
    CHECK_FALSE(high.held_below);
    CHECK(high.held_above);
    CHECK_FALSE(high.resampled);
    CHECK(high.spectrum[80] == cubic(730));

    const OnGrid coarse = to_grid(sample(cubic, every(360, 20, 800)));
    CHECK_FALSE(coarse.held_below);
    CHECK_FALSE(coarse.held_above);
    CHECK(coarse.resampled);
    CHECK_THAT(coarse.spectrum[33], Near(cubic(545), identity));

    CHECK_FALSE(to_grid(sample(cubic, every(380, 1, 780))).resampled);  // a finer spectrum has all grid points
}

TEST_CASE("a broken spectrum is refused with the place and the value") {
    using Catch::Contains;
    const double nan = std::numeric_limits<double>::quiet_NaN();
    CHECK_THROWS_AS(check(Sampled{{400, 500, 500}, {0, 0, 0}}), std::invalid_argument);
    CHECK_THROWS_WITH(check(Sampled{{400, 500, 500}, {0, 0, 0}}),
                      Contains("wavelength_nm[2] is 500") && Contains("500"));
    CHECK_THROWS_WITH(check(Sampled{{400, 500, 490.5}, {0, 0, 0}}),
                      Contains("wavelength_nm[2] is 490.5") && Contains("above"));
    CHECK_THROWS_WITH(check(Sampled{{400, 500}, {0, nan}}), Contains("value[1] is nan"));
    CHECK_THROWS_WITH(check(Sampled{{400, nan}, {0, 0}}), Contains("wavelength_nm[1] is nan"));
    CHECK_THROWS_WITH(check(Sampled{{400, 500}, {0}}), Contains("2 wavelengths but 1 values"));
    CHECK_THROWS_WITH(check(Sampled{{400}, {0}}), Contains("at least 2 points, has 1"));
    CHECK_THROWS_WITH(to_grid(Sampled{{500, 400}, {0, 0}}), Contains("wavelength_nm[1] is 400"));
    CHECK_THROWS_WITH(Sampled::regular(400, -10, {0, 0}), Contains("wavelength_nm[1] is 390"));
    CHECK_NOTHROW(check(Sampled{{400, 500}, {0, 0}}));
}
