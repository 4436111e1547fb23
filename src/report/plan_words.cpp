#include "foretone/report/plan_words.hpp"

#include "foretone/base/number.hpp"
#include "foretone/color/words.hpp"

namespace foretone::report {

std::string measures_text(const schedule::Pot& pot) {
    std::string out;
    for (const auto& m : pot.measures)
        out += (out.empty() ? "" : "; ") + m.id + " " + base::at_most(m.measured, 3) + (m.weighed ? " g" : " mL");
    return out;
}

std::string rounding_text(const job::PlanStep& step) {
    if (!step.rounding) return "";
    const auto& r = *step.rounding;
    std::string text = r.de00 ? "Rounding shifts the color by ΔE00 " + base::at_most(*r.de00, 1) + " under " + r.light
                              : std::string("With these measures the mix is no longer the finish that was asked for");
    if (r.de00 && *r.de00 < color::visible_de00) return text + ": not visible.";
    text += ". ";
    if (r.keeps)
        return text + "A batch of " + base::at_most(r.keeps->exact_ml, 1) +
               " mL keeps the color: " + measures_text(*r.keeps) + ".";
    return text + "No larger batch up to 100 times this keeps it: use a finer scale or syringe, or a weaker stock.";
}

}  // namespace foretone::report
