#include "foretone/report/plan_words.hpp"

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/color/words.hpp"
#include "foretone/schedule/printed.hpp"

namespace foretone::report {

std::string measures_text(const schedule::Pot& pot, schedule::UnitSystem units) {
    std::string out;
    for (const auto& m : pot.measures)
        out += (out.empty() ? "" : "; ") + m.id + " " + schedule::printed_measure(m.measured, m.weighed, units);
    return out;
}

std::string purchase_text(const job::Purchase& b, schedule::UnitSystem units) {
    return schedule::printed_measure(b.amount, b.weighed, units);
}

std::string solvent_text(const job::Plan& plan) {
    const auto mass = [&](double g) { return schedule::printed(g, schedule::Dimension::mass, plan.request.units); };
    const double solvent = plan.solvent_g, cans = plan.can_voc_g;
    if (!(solvent > 0) && !(cans > 0)) return "";
    std::string out;
    if (cans > 0 && solvent > 0)
        out = "VOC: " + mass(solvent + cans) + " evaporate (" + mass(solvent) + " of alcohol and thinners, " +
              mass(cans) + " by the cans' labels)";
    else if (cans > 0)
        out = "VOC: " + mass(cans) + " evaporate, by the cans' labels";
    else
        out = mass(solvent) + " of alcohol and thinners evaporate";
    if (!plan.voc_unsaid.empty())
        out += ", beside what the " + std::string(plan.voc_unsaid.size() == 1 ? "can" : "cans") + " of " +
               base::joined(plan.voc_unsaid, ", ", " and ") + " " + (plan.voc_unsaid.size() == 1 ? "holds" : "hold");
    return out + "; local rules say how much may";
}

std::string rounding_text(const job::PlanStep& step, schedule::UnitSystem units) {
    if (!step.rounding) return "";
    const auto& r = *step.rounding;
    std::string text = r.de00 ? "Rounding shifts the color by ΔE00 " + base::at_most(*r.de00, 1) + " under " + r.light
                              : std::string("With these measures the mix is no longer the finish that was asked for");
    if (r.de00 && *r.de00 < color::visible_de00) return text + ": not visible.";
    text += ". ";
    if (r.keeps)
        return text + "A batch of " + schedule::printed(r.keeps->exact_ml, schedule::Dimension::volume, units) +
               " keeps the color: " + measures_text(*r.keeps, units) + ".";
    return text + "No larger batch up to 100 times this keeps it: use a finer scale or syringe, or a weaker stock.";
}

}  // namespace foretone::report
