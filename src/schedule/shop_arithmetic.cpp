// Each function is the closed form of its header, written so that nothing cancels: a share x/(1 + x) is never formed as
// a difference of near values.

#include "foretone/schedule/shop_arithmetic.hpp"

#include <cmath>
#include <stdexcept>
#include <string>

#include "foretone/base/number.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/step.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::schedule {
namespace {

void due(bool good, const char* where, double value, const char* text) {
    if (!good) throw std::invalid_argument(std::string(where) + ": " + base::shortest(value) + " " + text);
}

void check(const char* where, CutDensities d) {
    due(d.resin > 0 && std::isfinite(d.resin), where, d.resin, "is no resin density");
    due(d.alcohol > 0 && std::isfinite(d.alcohol), where, d.alcohol, "is no alcohol density");
}

bool amount(double v) { return std::isfinite(v) && v >= 0; }

double one_lb_g_per_l() { return material::cut_g_per_l_alcohol(1); }

}  // namespace

Cut cut_of(double lb, CutDensities d) {
    check("cut_of", d);
    due(amount(lb), "cut_of", lb, "is no cut");
    Cut c;
    c.lb_per_gal = lb;
    c.g_per_l_alcohol = material::cut_g_per_l_alcohol(lb);
    const double swelling = c.g_per_l_alcohol / 1000 / d.resin;  // litres of resin per litre of alcohol
    c.g_per_l_solution = c.g_per_l_alcohol / (1 + swelling);
    c.weight_percent = 100 * c.g_per_l_alcohol / (c.g_per_l_alcohol + 1000 * d.alcohol);
    c.volume_percent = 100 * swelling / (1 + swelling);
    return c;
}

double cut_from_g_per_l_solution(double g, CutDensities d) {
    check("cut_from_g_per_l_solution", d);
    due(amount(g) && g < 1000 * d.resin, "cut_from_g_per_l_solution", g, "g/L is not below the resin's own density");
    return g / (1 - g / (1000 * d.resin)) / one_lb_g_per_l();
}

double cut_from_weight_percent(double p, CutDensities d) {
    check("cut_from_weight_percent", d);
    due(amount(p) && p < 100, "cut_from_weight_percent", p, "% is not below 100 %");
    return p / (100 - p) * 1000 * d.alcohol / one_lb_g_per_l();
}

double cut_from_volume_percent(double p, CutDensities d) {
    check("cut_from_volume_percent", d);
    due(amount(p) && p < 100, "cut_from_volume_percent", p, "% is not below 100 %");
    return p / (100 - p) * 1000 * d.resin / one_lb_g_per_l();
}

double cut_in(const Amounted& said, CutDensities d) {
    double lb = 0;
    try {
        if (said.unit->name == "g/L-solution")
            lb = cut_from_g_per_l_solution(said.value, d);
        else if (said.unit->name == "%w-resin")
            lb = cut_from_weight_percent(said.value, d);
        else if (said.unit->name == "%v-resin")
            lb = cut_from_volume_percent(said.value, d);
        else
            lb = said.stored();
    } catch (const std::invalid_argument& e) {
        throw Fault("cut-range", -1, e.what());
    }
    if (!(lb >= 0.01 && lb <= 10))
        throw Fault("cut-range", -1,
                    base::shortest(said.value) + " " + std::string(said.unit->name) + " would be a " +
                        (lb < 1e6 ? base::at_most(lb, 4) : base::shortest(lb)) +
                        "-lb cut; a cut is from 0.01 to 10 lb/gal");
    return lb;
}

double gal_per_lb(double resin_density) {
    due(resin_density > 0 && std::isfinite(resin_density), "gal_per_lb", resin_density, "is no density");
    return one_lb_g_per_l() / 1000 / resin_density;
}

double thinning_parts(double from, double to, double b) {
    due(amount(from), "thinning_parts", from, "is no cut");
    due(amount(to) && to > 0 && to <= from, "thinning_parts", to,
        "lb/gal cannot be reached: alcohol only makes a cut thinner");
    due(amount(b), "thinning_parts", b, "is no volume per pound");
    return (from / to - 1) / (1 + b * from);
}

CutRecipe cut_recipe(double lb, double ml, CutDensities d) {
    due(amount(ml), "cut_recipe", ml, "is no volume");
    const Cut c = cut_of(lb, d);
    return {c.g_per_l_solution * ml / 1000, ml * (1 - c.volume_percent / 100)};
}

double weight_percent_of_load(double g, double density) {
    due(amount(g), "weight_percent_of_load", g, "is no load");
    due(density > 0 && std::isfinite(density), "weight_percent_of_load", density, "is no density");
    return 100 * g / (g + 1000 * density);
}

double load_of_weight_percent(double p, double density) {
    due(amount(p) && p < 100, "load_of_weight_percent", p, "% is not below 100 %");
    due(density > 0 && std::isfinite(density), "load_of_weight_percent", density, "is no density");
    return p / (100 - p) * 1000 * density;
}

std::vector<Rung> ladder(int rungs, double ratio, double each_ml) {
    due(rungs >= 1 && rungs <= 20, "ladder", rungs, "rungs: a ladder has 1 to 20");
    due(ratio > 0 && ratio < 1, "ladder", ratio, "is no ratio between 0 and 1");
    due(amount(each_ml), "ladder", each_ml, "is no volume");
    std::vector<Rung> out;
    double strength = 1;
    for (int i = 0; i < rungs; ++i, strength *= ratio)
        out.push_back({strength, each_ml * strength, each_ml * (1 - strength)});
    return out;
}

Tint tint(double total_g, double percent) {
    due(amount(total_g), "tint", total_g, "is no weight");
    due(amount(percent) && percent < 100, "tint", percent, "% is not below 100 %");
    return {total_g * percent / 100, total_g * (1 - percent / 100)};
}

double dry_um(double wet, double solids) {
    due(amount(wet), "dry_um", wet, "is no film");
    due(amount(solids) && solids <= 100, "dry_um", solids, "% is no share of solids");
    return wet * solids / 100;
}

double coverage_m2_per_l(double wet) {
    due(wet > 0 && std::isfinite(wet), "coverage_m2_per_l", wet, "is no film");
    return 1000 / wet;
}

double to_step(double value, double step) {
    due(std::isfinite(value), "to_step", value, "is no amount");
    due(step > 0 && std::isfinite(step), "to_step", step, "is no step");
    return std::round(value / step) * step;
}

}  // namespace foretone::schedule
