#pragma once
/// Shop arithmetic: cuts, thinning, powders, ladders, tints, films.
///
/// A cut of c lb/gal is c·119.83 g of resin in one litre of *alcohol*. The resin has volume too: with densities ρr and
/// ρa (g/mL) one litre of alcohol becomes 1 + v litres of solution, v = c·0.11983/ρr. All functions throw
/// std::invalid_argument for values that are negative, not finite or impossible.

#include <vector>

#include "foretone/schedule/measure.hpp"

namespace foretone::schedule {

/// Densities, g/mL. Resin 1.15 and ethanol 0.789 (near 20 °C).
struct CutDensities {
    double resin = 1.15;
    double alcohol = 0.789;
};

/// One resin solution said in every way.
struct Cut {
    double lb_per_gal = 0;  ///< per US gal of alcohol
    double g_per_l_alcohol = 0;
    double g_per_l_solution = 0;
    double weight_percent = 0;
    double volume_percent = 0;  ///< volume solids
};

Cut cut_of(double lb_per_gal, CutDensities densities = {});

/// lb/gal of a solution said otherwise. A share must be below 100 %, a solution below the resin's own density.
double cut_from_g_per_l_solution(double g_per_l, CutDensities densities = {});
double cut_from_weight_percent(double percent, CutDensities densities = {});
double cut_from_volume_percent(double percent, CutDensities densities = {});

/// lb/gal of a cut read in any unit of `Dimension::cut`. Throws Fault `cut-range` outside 0.01–10 lb/gal.
double cut_in(const Amounted& amount, CutDensities densities = {});

/// The trade's rule of thumb: a pound of flakes takes a tenth of a gallon. (By a density of 1.15 it takes 0.1042 gal.)
inline constexpr double thumb_gal_per_lb = 0.1;

/// Gallons that a pound of resin takes.
double gal_per_lb(double resin_density);

/// Parts of alcohol to add to one part of a cut `from` to make a cut `to`: (from/to − 1)/(1 + b·from), b = gal per lb.
/// The bracket below is the volume of solution that holds one volume of alcohol. Throws for to > from.
double thinning_parts(double from_lb, double to_lb, double gal_per_lb_resin = thumb_gal_per_lb);

/// Resin (g) and alcohol (mL) for so much solution.
struct CutRecipe {
    double resin_g = 0, alcohol_ml = 0;
};
CutRecipe cut_recipe(double lb_per_gal, double solution_ml, CutDensities densities = {});

/// Percent of the weight of liquid and powder that is powder, and back. `density`: of the liquid, g/mL.
double weight_percent_of_load(double g_per_l, double density);
double load_of_weight_percent(double percent, double density);

/// One rung of a strength ladder: one part of stock in 1/strength parts of mix.
struct Rung {
    double strength = 1;  ///< share of full strength
    double stock_ml = 0, liquid_ml = 0;
};

/// Full strength, then each rung `ratio` of the one before; `each_ml` of every rung. 1–20 rungs, ratio in (0, 1).
std::vector<Rung> ladder(int rungs, double ratio, double each_ml);

/// Grams of tint in `total_g` of tinted finish at `percent` of its weight; the rest is finish.
struct Tint {
    double tint_g = 0, finish_g = 0;
};
Tint tint(double total_g, double percent);

/// Dry film of a wet one: wet · volume solids.
double dry_um(double wet_um, double solids_volume_percent);

/// Coverage at a wet film: 1000/wet m²/L; 1 mil over 1604 ft² is one US gallon.
double coverage_m2_per_l(double wet_um);

/// `value` rounded to whole steps of what a scale or syringe shows, halves away from zero.
double to_step(double value, double step);

}  // namespace foretone::schedule
