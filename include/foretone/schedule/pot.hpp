#pragma once
/// A step's recipe scaled to a pot or an area, rounded to what a scale and a syringe can measure.

#include <string>
#include <vector>

#include "foretone/schedule/mixture.hpp"

namespace foretone::schedule {

/// The smallest steps that the tools show.
struct Tools {
    double scale_g = 0.1;
    double syringe_ml = 0.5;
    /// What is more is poured into measuring cups (`pour_step`); unsaid, everything is drawn up.
    double syringe_up_to_ml = 1e300;
};

/// What a bench draws up; beyond it is poured (common practice: the largest syringes hold 60 to 100 mL).
inline constexpr double usual_syringe_up_to_ml = 100;

/// One thing to measure out.
struct Measure {
    std::string id;        ///< material among the materials
    bool weighed = false;  ///< by scale, g; else by syringe, mL
    double exact = 0;
    double measured = 0;  ///< rounded to the tool's step
};

/// What a pot takes.
struct Pot {
    double exact_ml = 0;
    double measured_ml = 0;  ///< what the rounded measures come to
    std::vector<Measure> measures;
    Step step;                       ///< the step with its mix as measured
    std::vector<std::string> notes;  ///< what rounded away
};

/// The steps in which so much is measured: the syringe's own as far as it is used, then those of measuring cups, 1, 2,
/// 4 or 10 … times as coarse, of which at most 200 go into what is poured and at least 80.
double pour_step(double ml, const Tools& tools);

/// Share of the finish that does not stay on the work, by method (common practice): rags and pads, brush and pot,
/// roller and tray, overspray.
double loss_share(material::Method method);

/// The method of a step as said, or the usual one of its binder: wiped for what soaks in, brushed for a film.
material::Method method_of(const Step& step, const material::Materials& materials);

/// Millilitres for all coats of a step over an area, loss included. Throws Fault as `deposit`; std::invalid_argument
/// for an area that is not positive.
double ml_for_area(const Step& step, const material::Materials& materials, double area_m2);

/// `step` scaled to `total_ml` and rounded. Dry resin and powders are weighed, liquids drawn up; the cut that the
/// rounded resin and alcohol make goes into `step`. Throws Fault `pot-too-small` (with the volume that would do) when
/// nothing liquid is left after rounding.
Pot pot(const Step& step, const material::Materials& materials, double total_ml, Tools tools = {});

}  // namespace foretone::schedule
