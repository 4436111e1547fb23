#include <catch2/catch.hpp>
#include <cmath>
#include <stdexcept>

#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/units.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone::schedule;
using namespace foretone::test;

TEST_CASE("every row of the pound-cut table comes out to its digits") {
    // shellac_pound_cut.csv: computed with resin density 1.15; its weight percents need an alcohol of 0.80 g/mL
    // (denatured), not 0.789.
    const auto four_digits = [](double v) { return 0.5001 * std::pow(10, std::floor(std::log10(v)) - 3); };
    int rows = 0;
    for (const auto& row : table("shellac_pound_cut.csv")) {
        const Cut c = cut_of(row.number("lb_per_USgal_solvent"), {1.15, 0.8});
        INFO(c.lb_per_gal);
        CHECK(c.lb_per_gal == row.number("lb_per_USgal_solvent"));
        const std::pair<const char*, double> columns[] = {{"g_per_L_solvent", c.g_per_l_alcohol},
                                                          {"g_per_L_solution", c.g_per_l_solution},
                                                          {"wt_pct", c.weight_percent},
                                                          {"vol_solids_pct", c.volume_percent},
                                                          {"dry_um_from_50um_wet", dry_um(50, c.volume_percent)},
                                                          {"dry_um_from_100um_wet", dry_um(100, c.volume_percent)}};
        for (const auto& [column, value] : columns)
            CHECK_THAT(value, Near(row.number(column), four_digits(row.number(column))));
        ++rows;
    }
    CHECK(rows == 8);
}

TEST_CASE("a one-pound cut is 119.8 g in a litre of alcohol and 108.5 g in a litre of solution") {
    // lb and US gal by definition: 453.59237 g / 3.785411784 L; resin density 1.15.
    CHECK_THAT(cut_of(1).g_per_l_alcohol, Near(119.8, 0.05));
    CHECK_THAT(cut_of(1).g_per_l_solution, Near(108.5, 0.05));
}

TEST_CASE("thinning takes (from/to - 1)/(1 + 0.1 from) parts of alcohol") {
    // Computed from the rule with 0.1 gal per lb.
    CHECK_THAT(thinning_parts(3, 1), Near(1.54, 0.005));
    CHECK_THAT(thinning_parts(5, 2), Near(1.00, 0.005));
    CHECK_THAT(thinning_parts(5, 3), Near(0.44, 0.005));
    CHECK(thinning_parts(2, 2) == 0);
}

TEST_CASE("thinning by the resin's density makes exactly the cut wanted") {
    double worst = 0;
    for (double from = 0.5; from <= 6; from += 0.25)
        for (double to = 0.25; to <= from; to += 0.25) {
            const auto have = cut_recipe(from, 1000);
            const double alcohol_ml = have.alcohol_ml + 1000 * thinning_parts(from, to, gal_per_lb(1.15));
            const double lb = have.resin_g / alcohol_ml * 1000 / cut_of(1).g_per_l_alcohol;
            worst = worst_of(worst, std::abs(lb - to));
        }
    CHECK(worst < closed_form);
}

TEST_CASE("a cut said any way reads back as the same cut") {
    double worst = 0;
    for (double lb = 0.1; lb <= 8; lb += 0.1) {
        const Cut c = cut_of(lb);
        worst = worst_of({worst, std::abs(cut_from_g_per_l_solution(c.g_per_l_solution) - lb),
                          std::abs(cut_from_weight_percent(c.weight_percent) - lb),
                          std::abs(cut_from_volume_percent(c.volume_percent) - lb)});
    }
    CHECK(worst < closed_form);
    CHECK_THAT(cut_in(read_amount("239.65g/L-alcohol", Dimension::cut)), Near(2, 1e-3));
    CHECK_THAT(cut_in(read_amount("4oz/pt", Dimension::cut)), Near(2, identity));  // 2 oz in a pint is a 1-lb cut
    CHECK_THAT(cut_in(read_amount("17.25%v-resin", Dimension::cut)), Near(2, 1e-3));
}

TEST_CASE("a recipe's resin and alcohol fill the volume asked for") {
    const auto r = cut_recipe(2, 750);
    CHECK_THAT(r.resin_g / 1.15 + r.alcohol_ml, Near(750, closed_form));
}

TEST_CASE("a powder's load goes to percent of weight and back") {
    CHECK_THAT(read_amount("1oz/qt", Dimension::load).stored(), Near(29.957, 5e-4));  // 28.349523125/0.946352946
    for (const double g : {0.1, 5.0, 60.0, 500.0})
        CHECK_THAT(load_of_weight_percent(weight_percent_of_load(g, 0.998), 0.998), Near(g, closed_form * g));
    CHECK_THAT(weight_percent_of_load(100, 0.9), Near(10, identity));  // 100 g in 900 g
}

TEST_CASE("a ladder halves each rung, and every rung has the volume asked for") {
    const auto rungs = ladder(4, 0.5, 80);
    REQUIRE(rungs.size() == 4);
    CHECK(rungs[0].liquid_ml == 0);
    CHECK(rungs[3].strength == 0.125);
    CHECK(rungs[3].stock_ml == 10);
    for (const auto& r : rungs) CHECK_THAT(r.stock_ml + r.liquid_ml, Near(80, identity));
}

TEST_CASE("tint is a share of the tinted whole") {
    CHECK_THAT(tint(500, 2).tint_g, Near(10, identity));
    CHECK_THAT(tint(500, 2).finish_g, Near(490, identity));
}

TEST_CASE("one mil over 1604 square feet is a US gallon") {
    // 231 cubic inches / 0.001 inch / 144 = 1604.17 ft2.
    const double ft2_per_gal = coverage_m2_per_l(um_from_mil(1)) / m2_per_l_from_ft2_per_gal(1);
    CHECK_THAT(ft2_per_gal, Near(231 / 0.001 / 144, 1e-6));
    CHECK_THAT(ft2_per_gal, Near(1604, 0.5));
}

TEST_CASE("impossible amounts are refused with the value") {
    CHECK_THROWS_AS(cut_of(-1), std::invalid_argument);
    CHECK_THROWS_AS(cut_of(std::nan("")), std::invalid_argument);
    CHECK_THROWS_AS(cut_of(1, {0, 0.789}), std::invalid_argument);
    CHECK_THROWS_WITH(cut_from_g_per_l_solution(1200), Catch::Contains("1200"));
    CHECK_THROWS_AS(cut_from_weight_percent(100), std::invalid_argument);
    CHECK_THROWS_AS(cut_from_volume_percent(100), std::invalid_argument);
    CHECK_THROWS_WITH(thinning_parts(2, 3), Catch::Contains("only makes a cut thinner"));
    CHECK_THROWS_AS(thinning_parts(2, 0), std::invalid_argument);
    CHECK_THROWS_AS(cut_recipe(2, -5), std::invalid_argument);
    CHECK_THROWS_AS(ladder(0, 0.5, 10), std::invalid_argument);
    CHECK_THROWS_AS(ladder(3, 1, 10), std::invalid_argument);
    CHECK_THROWS_AS(tint(10, 100), std::invalid_argument);
    CHECK_THROWS_AS(dry_um(10, 101), std::invalid_argument);
    CHECK_THROWS_AS(coverage_m2_per_l(0), std::invalid_argument);
    CHECK_THROWS_AS(to_step(1, 0), std::invalid_argument);
    CHECK_THROWS_AS(cut_in(read_amount("40lb/gal", Dimension::cut)), Fault);
}
