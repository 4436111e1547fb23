/// A wood brought to a color: what changes, what does not, and the way back.

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "foretone/material/relevel.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using foretone::color::Lab;
using foretone::material::Wood;
using foretone::test::Near;

namespace {

Wood bumpy_wood() {
    Wood w;
    w.reflectance.sd = 0.07;
    w.reflectance.from = {foretone::material::Mark::measured, "a board"};
    w.n = {1.53, 0.01, {}};
    for (std::size_t i = 0; i < w.reflectance.values.size(); ++i) {
        const double u = static_cast<double>(i) / 80;
        w.reflectance.values[i] = 0.25 + 0.4 * u + 0.03 * std::sin(12 * u);
    }
    return w;
}

const foretone::color::Weights& weights_under(const std::string& light) {
    static const auto d65 =
        foretone::color::make_weights(foretone::test::light("D65"), foretone::test::observer("2deg"));
    static const auto a = foretone::color::make_weights(foretone::test::light("A"), foretone::test::observer("2deg"));
    return light == "A" ? a : d65;
}

Lab lab_of(const Wood& w, const foretone::color::Weights& weights) {
    return foretone::color::to_lab(foretone::color::xyz(w.reflectance.values, weights), weights.white);
}

double log_ks(double r) { return std::log((1 - r) * (1 - r) / (2 * r)); }

}  // namespace

TEST_CASE("the change of ln(K/S) is a parabola over wavelength, as the header says") {
    auto w = bumpy_wood();
    const auto before = w.reflectance.values;
    REQUIRE(foretone::material::relevel(w, {62, 10, 22}, weights_under("D65")));
    std::vector<double> change;
    for (std::size_t i = 0; i < before.size(); ++i)
        change.push_back(log_ks(w.reflectance.values[i]) - log_ks(before[i]));
    double largest = 0;
    for (std::size_t i = 0; i + 3 < change.size(); ++i) {
        const double third = change[i + 3] - 3 * change[i + 2] + 3 * change[i + 1] - change[i];
        largest = foretone::test::worst_of(largest, std::isfinite(third) ? std::abs(third) : INFINITY);
    }
    CHECK(largest < 1e-9);                                                    // third differences of a parabola vanish
    CHECK(std::abs(change.front() - 2 * change[40] + change.back()) > 1e-3);  // and it is not a straight line
}

TEST_CASE("there and back again is where it was, by any way") {
    std::mt19937 seeded(5);
    std::uniform_real_distribution<double> l(40, 82), a(3, 11), b(12, 26);
    for (int i = 0; i < 20; ++i) {
        auto w = bumpy_wood();
        const auto start = lab_of(w, weights_under("D65"));
        const Lab away{l(seeded), a(seeded), b(seeded)};
        INFO("by L* " << away.l << ", a* " << away.a << ", b* " << away.b);
        REQUIRE(foretone::material::relevel(w, away, weights_under("D65")));
        REQUIRE(foretone::material::relevel(w, start, weights_under("D65")));
        const auto again = bumpy_wood();
        for (std::size_t k = 0; k < again.reflectance.values.size(); ++k)
            CHECK_THAT(w.reflectance.values[k], Near(again.reflectance.values[k], foretone::test::quadrature));
    }
}

TEST_CASE("a wood brought to the color it has under a lamp stays as it is") {
    auto w = bumpy_wood();
    REQUIRE(foretone::material::relevel(w, lab_of(w, weights_under("A")), weights_under("A")));
    for (std::size_t k = 0; k < w.reflectance.values.size(); ++k)
        CHECK_THAT(w.reflectance.values[k], Near(bumpy_wood().reflectance.values[k], foretone::test::quadrature));
}

TEST_CASE("only the reflectance is moved: its spread, its source and all other figures stay") {
    auto w = bumpy_wood();
    REQUIRE(foretone::material::relevel(w, {55, 9, 20}, weights_under("A")));
    CHECK_THAT(foretone::color::delta_e_ab(lab_of(w, weights_under("A")), {55, 9, 20}),
               Near(0, foretone::test::quadrature));
    CHECK(w.reflectance.sd == 0.07);
    CHECK(w.reflectance.from.source == "a board");
    CHECK(w.n.value == 1.53);
}

TEST_CASE("a darker goal is darker at every wavelength of the visible, a lighter one lighter") {
    auto dark = bumpy_wood(), light = bumpy_wood();
    const auto own = lab_of(dark, weights_under("D65"));
    REQUIRE(foretone::material::relevel(dark, {own.l - 15, own.a, own.b}, weights_under("D65")));
    REQUIRE(foretone::material::relevel(light, {own.l + 6, own.a, own.b}, weights_under("D65")));
    for (std::size_t k = 8; k < 64; ++k) {  // 420 to 700 nm
        CHECK(dark.reflectance.values[k] < bumpy_wood().reflectance.values[k]);
        CHECK(light.reflectance.values[k] > bumpy_wood().reflectance.values[k]);
    }
}

TEST_CASE("colors beyond wood are refused, each leaving the wood as it was") {
    for (const Lab goal : {Lab{0, 0, 0}, Lab{100, 0, 0}, Lab{60, 90, 0}, Lab{60, -90, 40}, Lab{95, 0, 90}}) {
        auto w = bumpy_wood();
        INFO("L* " << goal.l << ", a* " << goal.a << ", b* " << goal.b);
        CHECK_FALSE(foretone::material::relevel(w, goal, weights_under("D65")));
        CHECK(w.reflectance.values == bumpy_wood().reflectance.values);
    }
}
