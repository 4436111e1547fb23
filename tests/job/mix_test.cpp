#include "foretone/job/mix.hpp"

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/schedule/step.hpp"
#include "support/tolerance.hpp"

namespace foretone::test {
namespace {

double value(const job::MixAnswer& a, const std::string& key) {
    for (const auto& f : a.figures)
        if (f.key == key) return f.value;
    FAIL("no figure " << key);
    return 0;
}

}  // namespace

TEST_CASE("a cut is said by weight and by volume, from the definition of the pound and the US gallon") {
    job::MixQuestion q;
    q.amount = "2lb/gal";
    const auto a = job::mix_cut(q);
    const double g = 2 * 453.59237 / 3.785411784;  // international pound, US gallon of 231 cubic inches
    CHECK_THAT(value(a, "g_per_l_alcohol"), Near(g, closed_form));
    CHECK_THAT(value(a, "weight_percent"), Near(100 * g / (g + 789), closed_form));
    CHECK_THAT(value(a, "volume_percent"), Near(100 * (g / 1150) / (1 + g / 1150), closed_form));
    CHECK_FALSE(a.units_written);  // lb/gal is everybody's
    q.volume = "1 pint";
    CHECK(job::mix_cut(q).units_written == schedule::UnitSystem::us);
}

TEST_CASE("thinned by the parts that are said, a cut holds as much resin as before") {
    job::MixQuestion q;
    q.amount = "3lb/gal";
    q.to = "1lb/gal";
    q.have = "500mL";
    const auto a = job::mix_thin(q);
    // 500 mL at 3 lb hold 3/(1 + 0.1·3) lb/gal of solution; spread over what it makes they are 1/(1 + 0.1·1).
    const double resin = 500 * 3 / 1.3;
    CHECK_THAT(resin / value(a, "total_ml"), Near(1 / 1.1, closed_form));
    q.to = "4lb/gal";
    CHECK_THROWS_AS(job::mix_thin(q), schedule::Fault);
    q.to = "1lb/gal";
    q.volume = "1L";
    CHECK_THROWS_AS(job::mix_thin(q), schedule::Fault);  // both what is at hand and what is wanted
}

TEST_CASE("a tint and its finish weigh what was asked, and a film's coverage and thickness are one figure") {
    job::MixQuestion q;
    q.amount = "1kg";
    q.to = "2%";
    const auto tint = job::mix_tint(q);
    CHECK_THAT(value(tint, "tint_g"), Near(20, closed_form));
    CHECK_THAT(value(tint, "tint_g") + value(tint, "finish_g"), Near(1000, closed_form));
    q.amount = "4mil";
    q.percent = "30%";
    const auto film = job::mix_film(q);
    CHECK_THAT(value(film, "wet_um"), Near(4 * 25.4, closed_form));
    CHECK_THAT(value(film, "coverage_m2_per_l") * value(film, "wet_um"), Near(1000, closed_form));
    CHECK_THAT(value(film, "dry_um"), Near(0.3 * 4 * 25.4, closed_form));
}

TEST_CASE("a strength comes back through the other ways of saying it; a weight through drops and parts") {
    job::MixQuestion q;
    q.amount = "1oz/qt";
    q.density = 1;
    const auto a = job::mix_powder(q);
    const double g = 28.349523125 / 0.946352946;  // avoirdupois ounce, US quart
    CHECK_THAT(value(a, "g_per_l"), Near(g, closed_form));
    CHECK_THAT(value(a, "percent_weight"), Near(100 * g / (g + 1000), closed_form));
    q.amount = "12g";
    q.part = "6mL";
    q.density = 1.2;
    const auto w = job::mix_weigh(q);
    CHECK_THAT(value(w, "ml"), Near(10, closed_form));
    CHECK_THAT(value(w, "parts"), Near(10.0 / 6, closed_form));
    q.part.clear();
    q.amount = "3parts";
    CHECK_THROWS_AS(job::mix_weigh(q), schedule::Fault);
}

TEST_CASE("each rung of a ladder is the ratio of the one before, and stock and liquid make its volume") {
    job::MixQuestion q;
    q.amount = "30g/L";
    q.volume = "80mL";
    q.rungs = 4;
    const auto a = job::mix_ladder(q);
    for (int n = 1; n <= 4; ++n) {
        const std::string at = "rung_" + std::to_string(n);
        CHECK_THAT(value(a, at + "_strength"), Near(30 * std::pow(0.5, n - 1), closed_form));
        CHECK_THAT(value(a, at + "_stock_ml") + value(a, at + "_liquid_ml"), Near(80, closed_form));
    }
    CHECK(a.figures.size() == 12);
}

}  // namespace foretone::test
