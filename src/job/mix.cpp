#include "foretone/job/mix.hpp"

#include <utility>

#include "foretone/base/number.hpp"
#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/printed.hpp"
#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::job {
namespace {
using schedule::Dimension;
using schedule::read_amount;

constexpr double largest_ml = 1e6, largest_g = 1e6;

std::string figures(double v, int digits = 3) { return base::at_most(v, digits); }

double volume_of(const std::string& text) { return schedule::amount_in(text, Dimension::volume, 0.001, largest_ml); }

schedule::CutDensities densities(const MixQuestion& q) {
    if (!(q.resin_density >= 0.6 && q.resin_density <= 2) || !(q.alcohol_density >= 0.6 && q.alcohol_density <= 1.2))
        throw schedule::Fault("density-range", -1,
                              "a resin's density is from 0.6 to 2 g/mL, an alcohol's from 0.6 to 1.2 g/mL");
    return {q.resin_density, q.alcohol_density};
}

double density_of(const MixQuestion& q) {
    if (!(q.density >= 0.5 && q.density <= 3))
        throw schedule::Fault("density-range", -1, "a liquid's density is from 0.5 to 3 g/mL");
    return q.density;
}

// What one part is.
double part_ml(const MixQuestion& q, double density) {
    const auto part = read_amount(q.part, {Dimension::volume, Dimension::mass});
    return part.stored() / (part.unit->dimension == Dimension::mass ? density : 1);
}

MixAnswer with_units(MixAnswer a, const MixQuestion& q) {
    for (const auto* amount : {&q.volume, &q.have, &q.part, &q.amount, &q.to})
        if (!a.units_written) a.units_written = schedule::units_written(*amount);
    return a;
}

}  // namespace

MixAnswer mix_cut(const MixQuestion& q) {
    const auto d = densities(q);
    const auto c = schedule::cut_of(schedule::cut_in(read_amount(q.amount, Dimension::cut), d), d);
    MixAnswer a;
    a.title = figures(c.lb_per_gal, 4) + "-lb cut";
    a.figures = {{"lb_per_gal", "pound cut", c.lb_per_gal, "lb per US gal of alcohol", 3},
                 {"g_per_l_alcohol", "per litre of alcohol", c.g_per_l_alcohol, "g/L-alcohol", 1},
                 {"g_per_l_solution", "per litre of solution", c.g_per_l_solution, "g/L-solution", 1},
                 {"weight_percent", "by weight", c.weight_percent, "%w-resin", 2},
                 {"volume_percent", "by volume (solids)", c.volume_percent, "%v-resin", 2}};
    a.formulas = {"g per L of alcohol = cut x 453.59237/3.785411784 = " + figures(c.lb_per_gal, 4) +
                      " x 119.826 = " + figures(c.g_per_l_alcohol, 2),
                  "v = g per L of alcohol / (1000 x resin density) = " +
                      figures(c.g_per_l_alcohol / 1000 / d.resin, 5) + " L of resin in a litre of alcohol",
                  "g per L of solution = g per L of alcohol / (1 + v);  % by volume = 100 v/(1 + v)",
                  "% by weight = 100 g/(g + 1000 x alcohol density), g per L of alcohol",
                  "densities: resin " + figures(d.resin) + ", alcohol " + figures(d.alcohol) + " g/mL"};
    if (!q.volume.empty()) {
        const auto recipe = schedule::cut_recipe(c.lb_per_gal, volume_of(q.volume), d);
        a.figures.push_back({"resin_g", "resin for " + q.volume, recipe.resin_g, "g", 1});
        a.figures.push_back({"alcohol_ml", "alcohol for " + q.volume, recipe.alcohol_ml, "mL", 1});
    }
    a.cautions = {"flammable", "vapor"};
    return with_units(std::move(a), q);
}

MixAnswer mix_thin(const MixQuestion& q) {
    const auto d = densities(q);
    const double from = schedule::cut_in(read_amount(q.amount, Dimension::cut), d),
                 to = schedule::cut_in(read_amount(q.to, Dimension::cut), d);
    if (to > from)
        throw schedule::Fault("cut-range", -1,
                              "a " + figures(from) + "-lb cut cannot be thinned to " + figures(to) +
                                  " lb: add resin, or mix a new batch");
    if (!q.have.empty() && !q.volume.empty())
        throw schedule::Fault("amount-twice", -1, "say --have or --make, not both");
    const double parts = schedule::thinning_parts(from, to), b = schedule::gal_per_lb(d.resin);
    const double exact = schedule::thinning_parts(from, to, b);
    MixAnswer a;
    a.title = "a " + figures(from) + "-lb cut to a " + figures(to) + "-lb cut";
    a.figures = {{"parts_alcohol", "alcohol to one part of it", parts, "parts", 2},
                 {"parts_alcohol_by_density", "by the resin's density", exact, "parts", 3}};
    a.formulas = {"parts = (from/to - 1)/(1 + 0.1 x from) = (" + figures(from) + "/" + figures(to) +
                      " - 1)/(1 + 0.1 x " + figures(from) + ") = " + figures(parts),
                  "rule of thumb: a pound of resin takes 0.1 gal; by density " + figures(d.resin) + " it takes " +
                      figures(b, 4) + " gal, and the parts are " + figures(exact)};
    if (!q.have.empty()) {
        const double have = volume_of(q.have);
        a.figures.push_back({"alcohol_ml", "alcohol to add to " + q.have, have * parts, "mL", 1});
        a.figures.push_back({"total_ml", "makes", have * (1 + parts), "mL", 1});
    }
    if (!q.volume.empty()) {
        const double make = volume_of(q.volume);
        a.figures.push_back(
            {"mix_ml", "of the " + figures(from) + "-lb cut for " + q.volume, make / (1 + parts), "mL", 1});
        a.figures.push_back({"alcohol_ml", "alcohol for " + q.volume, make * parts / (1 + parts), "mL", 1});
    }
    a.cautions = {"flammable", "vapor"};
    return with_units(std::move(a), q);
}

MixAnswer mix_powder(const MixQuestion& q) {
    const double density = density_of(q);
    const auto said = read_amount(q.amount, {Dimension::load, Dimension::share});
    const double g = said.unit->dimension == Dimension::share ? schedule::load_of_weight_percent(said.value, density)
                                                              : said.stored();
    if (!(g >= 1e-4 && g <= 2000))
        throw schedule::Fault("amount-range", -1,
                              "'" + q.amount + "' is " + figures(g) + " g/L; a load is from 0.0001 to 2000 g/L");
    MixAnswer a;
    a.title = q.amount + " of powder";
    a.figures = {{"g_per_l", "per litre of liquid", g, "g/L", 3},
                 {"oz_per_qt", "per US quart of liquid", g / schedule::g_per_l_from_oz_per_qt(1), "oz/qt", 4},
                 {"percent_weight_volume", "weight in volume", g / 10, "%w/v", 4},
                 {"percent_weight", "of the weight of all", schedule::weight_percent_of_load(g, density), "%", 4}};
    a.formulas = {"1 oz/qt = 28.349523125 g / 0.946352946 L = 29.957 g/L", "%w/v = g/L / 10",
                  "% of weight = 100 g/(g + 1000 x density), density of the liquid " + figures(density) + " g/mL"};
    if (!q.volume.empty())
        a.figures.push_back(
            {"powder_g", "powder for " + q.volume + " of liquid", g * volume_of(q.volume) / 1000, "g", 2});
    a.cautions = {"dust", "colorant"};
    return with_units(std::move(a), q);
}

MixAnswer mix_weigh(const MixQuestion& q) {
    const double density = density_of(q);
    const auto said = read_amount(q.amount, {Dimension::count, Dimension::volume, Dimension::mass});
    double ml = 0;
    if (said.unit->dimension == Dimension::mass) {
        ml = said.stored() / density;
    } else if (said.unit->dimension == Dimension::count) {
        if (q.part.empty())
            throw schedule::Fault("part-missing", -1,
                                  "parts have no size of their own: say what one part is, --part 10mL or --part 5g");
        ml = said.value * part_ml(q, density);
    } else {
        ml = said.stored();
    }
    if (!(ml <= largest_ml)) throw schedule::Fault("amount-range", -1, "'" + q.amount + "' is more than 1000 L");
    MixAnswer a;
    a.title = q.amount + (q.part.empty() ? "" : " of " + q.part);
    a.figures = {{"g", "by weight", ml * density, "g", 3},
                 {"ml", "by volume", ml, "mL", 3},
                 {"drops", "in drops", ml / schedule::ml_per_drop, "drops", 1}};
    if (!q.part.empty()) {
        const double one = part_ml(q, density);
        if (!(one > 0)) throw schedule::Fault("amount-range", -1, "a part of nothing: --part " + q.part);
        a.figures.push_back({"parts", "in parts of " + q.part, ml / one, "parts", 3});
    }
    a.formulas = {"g = mL x density, " + figures(density) + " g/mL",
                  "20 drops of water a mL (practice; thin liquids drop smaller, count your own)"};
    return with_units(std::move(a), q);
}

MixAnswer mix_ladder(const MixQuestion& q) {
    const auto said = read_amount(q.amount, {Dimension::load, Dimension::share, Dimension::cut});
    if (said.unit->factor == 0)
        throw schedule::Fault("unit-unknown", -1, "a ladder starts from a strength in g/L, oz/qt, %w/v or %");
    const double each = q.volume.empty() ? 100 : volume_of(q.volume);
    MixAnswer a;
    a.title = "ladder from " + q.amount + ", " + figures(each, 1) + " mL each";
    int number = 0;
    for (const auto& rung : schedule::ladder(q.rungs, q.ratio, each)) {
        const std::string at = "rung_" + std::to_string(++number);
        a.figures.push_back({at + "_strength", figures(rung.strength, 4) + " of full", said.value * rung.strength,
                             std::string(said.unit->name), 4});
        a.figures.push_back({at + "_stock_ml", "  full strength", rung.stock_ml, "mL", 2});
        a.figures.push_back({at + "_liquid_ml", "  plain liquid", rung.liquid_ml, "mL", 2});
    }
    a.formulas = {
        "strength of a rung = full x ratio^(n - 1); full-strength stock = volume x strength, the rest is plain liquid"};
    a.cautions = {"colorant"};
    return with_units(std::move(a), q);
}

MixAnswer mix_tint(const MixQuestion& q) {
    const double total = schedule::amount_in(q.amount, Dimension::mass, 0.001, largest_g);
    const double percent = schedule::amount_in(q.to, Dimension::share, 0, 99.999);
    const auto t = schedule::tint(total, percent);
    MixAnswer a;
    a.title = q.to + " of tint by weight in " + q.amount;
    a.figures = {{"tint_g", "tint", t.tint_g, "g", 3}, {"finish_g", "finish", t.finish_g, "g", 3}};
    a.formulas = {"tint = total x % / 100 = " + figures(total) + " x " + figures(percent) +
                  "/100; finish = total - tint"};
    a.cautions = {"colorant"};
    return with_units(std::move(a), q);
}

MixAnswer mix_film(const MixQuestion& q) {
    const auto said = read_amount(q.amount, {Dimension::film, Dimension::coverage});
    const bool film = said.unit->dimension == Dimension::film;
    const double v = said.stored();
    if (!(v > 0)) throw schedule::Fault("amount-range", -1, "'" + q.amount + "' is no film");
    const double wet = film ? v : schedule::wet_um_from_coverage(v);
    if (!(wet >= 0.1 && wet <= 5000))
        throw schedule::Fault("amount-range", -1,
                              "'" + q.amount + "' is a film of " + figures(wet) + " µm (" +
                                  base::significant(wet / schedule::um_per_mil, 3) +
                                  " mil); here 0.1 to 5000 µm (0.004 to 197 mil)");
    const double m2 = schedule::coverage_m2_per_l(wet);
    MixAnswer a;
    a.title = q.amount + " wet";
    a.figures = {{"wet_um", "wet film", wet, "um", 2},
                 {"wet_mil", "", wet / schedule::um_per_mil, "mil", 3},
                 {"coverage_m2_per_l", "coverage", m2, "m2/L", 2},
                 {"coverage_ft2_per_gal", "", m2 / schedule::m2_per_l_from_ft2_per_gal(1), "ft2/gal", 1},
                 {"wet_ml_per_m2", "takes", wet, "mL/m2", 2}};
    a.formulas = {"m2/L = 1000 / wet um; ft2/gal = 1604.2 / wet mil (1 US gal is 231 cubic inches)"};
    if (!q.percent.empty()) {
        const double solids = schedule::amount_in(q.percent, Dimension::share, 0, 100);
        a.figures.push_back({"dry_um", "dry film", schedule::dry_um(wet, solids), "um", 3});
        a.formulas.push_back(
            "dry = wet x volume solids (weight solids are not the same: up to 20 points off for solvent-borne "
            "finishes)");
    }
    return with_units(std::move(a), q);
}

}  // namespace foretone::job
