#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include "color/seeded.hpp"
#include "foretone/color/xyz.hpp"
#include "support/standards.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::color;
using namespace foretone::test;

namespace {

// Illuminant A at every nanometre, from its definition in CIE 15:2018:
// S = 100 (560/λ)^5 (exp(1.435e7/(2848·560)) − 1)/(exp(1.435e7/(2848 λ)) − 1).
spectral::Illuminant a_by_definition() {
    std::vector<double> v;
    for (int nm = 300; nm <= 830; ++nm) {
        v.push_back(100 * std::pow(560.0 / nm, 5) * std::expm1(1.435e7 / (2848.0 * 560.0)) /
                    std::expm1(1.435e7 / (2848.0 * nm)));
    }
    return {"A", spectral::Sampled::regular(300, 1, v)};
}

// D65 with all the digits of its standard table, CIE 15/ISO 11664-2, 300–830 nm at 5 nm (figures as packed in
// colord-data).
spectral::Illuminant d65_full_digits() {
    spectral::Illuminant d{"D65", {}};
    for (const auto& r : table("d65_300_830.csv")) {
        d.power.wavelength_nm.push_back(r.number("wavelength_nm"));
        d.power.value.push_back(r.number("power"));
    }
    return d;
}

double worst_difference(const WeightTable& w, const std::vector<std::vector<double>>& printed) {
    double worst = 0;
    for (std::size_t i = 0; i < printed.size(); ++i) {
        worst = worst_of({worst, std::abs(w.x[i] - printed[i][0]), std::abs(w.y[i] - printed[i][1]),
                          std::abs(w.z[i] - printed[i][2])});
    }
    return worst;
}

double sum(const std::vector<double>& v) { return std::accumulate(v.begin(), v.end(), 0.0); }

}  // namespace

TEST_CASE("the weighting tables of ASTM E308 are reproduced to the printed digit") {
    // ASTM E308, weighting tables for A, 10°, 10 nm and D65, 2°, 20 nm, from 360 nm, printed to three decimals: half a
    // unit is 5e-4.
    SECTION("illuminant A, 10 degrees, 10 nm") {
        const auto printed = plain_table("e308_weights_A_10deg_10nm.csv");
        REQUIRE(printed.size() == 48);
        CHECK_THAT(worst_difference(weight_table(a_by_definition(), observer("10deg"), 360, 10, 48), printed),
                   Near(0, 5.0e-4));
    }
    SECTION("illuminant D65, 2 degrees, 20 nm") {
        const auto printed = plain_table("e308_weights_D65_2deg_20nm.csv");
        REQUIRE(printed.size() == 24);
        CHECK_THAT(worst_difference(weight_table(d65_full_digits(), observer("2deg"), 360, 20, 24), printed),
                   Near(0, 5.0e-4));
    }
}

TEST_CASE("weights sum to the white, and its Y is 100") {
    for (const char* l : {"A", "C", "D50", "D65", "F2", "F11", "LED-2700"}) {
        for (const char* o : {"2deg", "10deg"}) {
            INFO(l << "/" << o);
            const Weights w = make_weights(light(l), observer(o));
            CHECK(w.white.y == 100);
            const Xyz white = xyz(spectral::Spectrum::constant(1), w);
            CHECK_THAT(white.x, Near(w.white.x, closed_form));
            CHECK_THAT(white.y, Near(100, closed_form));
            CHECK_THAT(white.z, Near(w.white.z, closed_form));
            const Xyz direct = white_by_summation(light(l), observer(o));
            CHECK(direct == w.white);
            const WeightTable t = weight_table(light(l), observer(o), 400, 20, 16);
            CHECK_THAT(sum(t.x), Near(w.white.x, closed_form));
            CHECK_THAT(sum(t.z), Near(w.white.z, closed_form));
        }
    }
}

TEST_CASE("weights and summation are the same map: 100 seeded reflectances on the grid") {
    // A grid reflectance is interpolated by the same cubic in both, so nothing but rounding is between them.
    Seeded seed(4);
    const auto o = observer("10deg");
    const auto l = light("F11");
    const Weights w = make_weights(l, o);
    double worst = 0;
    for (int i = 0; i < 100; ++i) {
        const auto r = seed.reflectance();
        const Xyz p = xyz(r, w), q = xyz_by_summation(spectral::from_grid(r), l, o);
        worst = worst_of({worst, std::abs(p.x - q.x), std::abs(p.y - q.y), std::abs(p.z - q.z)});
    }
    CHECK_THAT(worst, Near(0, closed_form));
}

TEST_CASE("the scale of a light does not matter") {
    auto l = light("A");
    const Weights w = make_weights(l, observer("2deg"));
    for (auto& v : l.power.value) v *= 4;  // a power of two: every product scales exactly
    const Weights scaled = make_weights(l, observer("2deg"));
    CHECK(scaled.x == w.x);
    CHECK(scaled.z == w.z);
    CHECK(scaled.white == w.white);
}

TEST_CASE("an observer sees nothing outside its table") {
    const auto full = observer("2deg");
    auto dark = full, cut = full;  // zero outside 380–780 nm, and ending there
    for (auto member : {&spectral::Observer::x, &spectral::Observer::y, &spectral::Observer::z}) {
        auto& v = (dark.*member).value;
        for (std::size_t i = 0; i < v.size(); ++i) {
            if (i < 20 || i > 420) v[i] = 0;
        }
        auto& c = cut.*member;
        c = spectral::Sampled::regular(380, 1, {c.value.begin() + 20, c.value.begin() + 421});
    }
    CHECK(white_by_summation(light("D65"), cut) == white_by_summation(light("D65"), dark));
    CHECK_FALSE(white_by_summation(light("D65"), cut) == white_by_summation(light("D65"), full));
}

TEST_CASE("an impossible light, observer or table is refused with its place and value") {
    using Catch::Contains;
    const auto o = observer("2deg");
    const auto a = light("A");
    const auto flat = [](double p, double q) { return spectral::Illuminant{"lamp", {{380, 780}, {p, q}}}; };
    CHECK_THROWS_AS(make_weights(flat(1, -2), o), std::invalid_argument);
    CHECK_THROWS_WITH(make_weights(flat(1, -2), o), Contains("lamp") && Contains("power[1] is -2"));
    CHECK_THROWS_WITH(white_by_summation(flat(0, 0), o), Contains("0 everywhere"));
    const spectral::Illuminant infrared{"infrared", {{831, 900, 1000}, {0, 1, 1}}};
    CHECK_THROWS_WITH(make_weights(infrared, o), Contains("infrared") && Contains("sees nothing"));
    auto coarse = o;
    coarse.y.wavelength_nm[3] += 0.25;
    CHECK_THROWS_WITH(make_weights(a, coarse), Contains("2deg") && Contains("wavelength_nm[3] is 363.25"));
    auto between = o;
    for (auto& nm : between.z.wavelength_nm) nm += 0.5;
    CHECK_THROWS_WITH(make_weights(a, between), Contains("wavelength_nm[0] is 360.5"));
    CHECK_THROWS_WITH(weight_table(a, o, 380, 5, 1), Contains("count is 1"));
    CHECK_THROWS_WITH(weight_table(a, o, 380, -5, 3), Contains("step_nm is -5"));
    CHECK_THROWS_WITH(xyz_by_summation({{500, 400}, {0, 0}}, a, o), Contains("wavelength_nm[1] is 400"));
}
