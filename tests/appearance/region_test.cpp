#include "foretone/appearance/region.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <numbers>
#include <random>

#include "foretone/appearance/lattice.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

// Normal colors about a wood's, half axes along chosen directions.
std::vector<color::Lab> cloud(std::size_t count, double first, double second, double third) {
    std::mt19937_64 rng(4);
    const auto deviate = [&] { return normal_quantile((static_cast<double>(rng() >> 11) + 0.5) * 0x1p-53); };
    const double s = std::sqrt(0.5);
    std::vector<color::Lab> out;
    for (std::size_t i = 0; i < count; ++i) {
        const double p = first * deviate(), q = second * deviate(), r = third * deviate();
        out.push_back({60 + s * p + s * q, 15 + r, 30 + s * p - s * q});
    }
    return out;
}

}  // namespace

TEST_CASE("the ellipsoid's factor is the 90 % quantile of three normal deviates' length") {
    // Distribution of the length of a 3-vector of standard normals (Maxwell): erf(r/√2) − √(2/π) r exp(−r²/2).
    const double r = region_factor;
    const double share = std::erf(r / std::numbers::sqrt2) - std::sqrt(2 / std::numbers::pi) * r * std::exp(-r * r / 2);
    CHECK_THAT(share, Near(region_share, closed_form));
}

TEST_CASE("mean, axes and the share inside are those of the cloud") {
    const auto colors = cloud(20000, 3, 1, 0.5);
    const auto r = region(colors);
    CHECK_THAT(r.mean.l, Near(60, 0.1));
    const double expected[] = {3, 1, 0.5};
    for (std::size_t i = 0; i < 3; ++i)  // standard error 1/√(2·20000) = 0.005
        CHECK_THAT(r.axes[i].length / (region_factor * expected[i]), Near(1, 0.02));
    CHECK_THAT(r.axes[0].direction[0], Near(std::sqrt(0.5), 0.02));
    CHECK_THAT(r.axes[0].direction[2], Near(std::sqrt(0.5), 0.02));
    std::size_t in_ellipsoid = 0, in_de = 0;
    for (const auto& c : colors) {
        double sum = 0;
        for (const auto& a : r.axes) {
            const double along = (c.l - r.mean.l) * a.direction[0] + (c.a - r.mean.a) * a.direction[1] +
                                 (c.b - r.mean.b) * a.direction[2];
            sum += along * along / (a.length * a.length);
        }
        in_ellipsoid += sum <= 1;
        in_de += color::delta_e_00(c, r.mean) <= r.de00_90;
    }
    CHECK_THAT(static_cast<double>(in_ellipsoid) / 20000, Near(0.9, 0.01));
    CHECK_THAT(static_cast<double>(in_de) / 20000, Near(0.9, 1e-4));
    CHECK(r.rms_de00 < r.de00_90);
}

TEST_CASE("axes stand at right angles, have length 1, and rebuild the covariance") {
    const auto r = region(cloud(300, 4, 2.5, 0.1));
    double worst = 0;
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t k = 0; k < 3; ++k) {
            double dot = 0, rebuilt = 0;
            for (std::size_t m = 0; m < 3; ++m) {
                dot += r.axes[i].direction[m] * r.axes[k].direction[m];
                const double sd = r.axes[m].length / region_factor;
                rebuilt += sd * sd * r.axes[m].direction[i] * r.axes[m].direction[k];
            }
            worst = worst_of({worst, std::abs(dot - (i == k ? 1 : 0)), std::abs(rebuilt - r.covariance[i][k])});
        }
    CHECK(worst < 1e-11);
}

TEST_CASE("equal colors have no region at all") {
    const auto r = region(std::vector<color::Lab>(9, {63.1, 7.3, 22.7}));
    CHECK((r.mean == color::Lab{63.1, 7.3, 22.7} && r.rms_de00 == 0 && r.de00_90 == 0 && r.axes[0].length == 0));
    CHECK_THROWS_AS(region({{1, 2, 3}}), std::invalid_argument);
}

TEST_CASE("plausible colors are draws within the region, pale to dark, first and last included") {
    const auto colors = cloud(257, 3, 2, 1);
    const auto r = region(colors);
    const auto shown = plausible(colors, r, 24);
    REQUIRE(shown.size() == 24);
    bool sorted = true, inside = true;
    double palest = 0, darkest = 100;
    for (const auto& c : colors) {
        if (color::delta_e_00(c, r.mean) > r.de00_90) continue;
        palest = worst_of(palest, c.l);
        darkest = least_of(darkest, c.l);
    }
    for (std::size_t i = 0; i < shown.size(); ++i) {
        sorted = sorted && (i == 0 || shown[i].l <= shown[i - 1].l);
        inside = inside && color::delta_e_00(shown[i], r.mean) <= r.de00_90;
    }
    CHECK((sorted && inside && shown.front().l == palest && shown.back().l == darkest));
    CHECK(plausible(colors, r, 1000).size() < 257);
    CHECK(plausible(colors, r, 1).size() == 1);
    CHECK_THROWS_AS(plausible(colors, r, 0), std::invalid_argument);
}

TEST_CASE("axes too short to be seen are none, and the directions still make one frame") {
    // Colors on a line, off it by what rounding might leave: two boards of the same line must give the same axes.
    const auto along = [](double noise) {
        std::vector<color::Lab> colors;
        for (int i = 0; i < 101; ++i) {
            const double t = (i - 50) / 10.0, wobble = noise * ((i * 37) % 11 - 5);
            colors.push_back({60 + 0.8 * t + wobble, 10 - 0.1 * t - wobble, 25 + 0.59 * t});
        }
        return region(colors);
    };
    const auto p = along(1e-9), q = along(-3e-8);
    CHECK((p.axes[1].length == 0 && p.axes[2].length == 0 && q.axes[1].length == 0 && q.axes[2].length == 0));
    for (std::size_t i = 0; i < 3; ++i)
        for (std::size_t k = 0; k < 3; ++k) {
            CHECK_THAT(p.axes[i].direction[k], Near(q.axes[i].direction[k], 1e-7));
            double dot = 0;
            for (std::size_t c = 0; c < 3; ++c) dot += p.axes[i].direction[c] * p.axes[k].direction[c];
            CHECK_THAT(dot, Near(i == k ? 1 : 0, 1e-12));
        }
}

TEST_CASE("colors along one line have a second axis across it, near the coordinate that the line has least of") {
    // Along (−3, 2, −1)/√14: least of b*, whatever its sign.
    const double s = 1 / std::sqrt(14.0);
    std::vector<color::Lab> line;
    for (int i = -5; i <= 5; ++i) line.push_back({50 - 3 * s * i, 10 + 2 * s * i, 20 - s * i});
    const auto r = region(line);
    CHECK(r.axes[0].length > 1);
    CHECK(r.axes[1].length == 0);
    CHECK(r.axes[2].length == 0);
    // b* less its part along the line: (0, 0, 1) + s (−3, 2, −1) s, over its length.
    const double norm = std::sqrt(1 - s * s);
    const std::array<double, 3> across = {-3 * s * s / norm, 2 * s * s / norm, (1 - s * s) / norm};
    for (std::size_t k = 0; k < 3; ++k) CHECK_THAT(r.axes[1].direction[k], Near(across[k], 1e-9));
    // Least of L*.
    std::vector<color::Lab> other;
    for (int i = -5; i <= 5; ++i) other.push_back({50 + s * i, 10 - 3 * s * i, 20 + 2 * s * i});
    const auto q = region(other).axes[1].direction;
    CHECK_THAT(q[0], Near((1 - s * s) / norm, 1e-9));
}
