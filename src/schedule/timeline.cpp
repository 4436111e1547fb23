// A layer's own waits, stretched by the air; the rules of order_rules.hpp say which waits a layer above asks for.

#include "foretone/base/number.hpp"
#include "foretone/schedule/timeline.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"
#include "foretone/schedule/measure.hpp"
#include "foretone/schedule/suction.hpp"
#include "coat_facts.hpp"

namespace foretone::schedule {
namespace {
using material::Method;

constexpr double usual_early_h = 12;  // common practice: overnight, where a material states no wait

bool from_water(const CoatFacts& l) { return l.carriers.count("water") > 0; }

double early_h(const CoatFacts& l, const Air& air) {
    return l.early_h.value_or(usual_early_h) * drying_factor(air, from_water(l));
}

std::optional<double> late_h(const CoatFacts& l, const Air& air) {
    if (!l.late_h) return std::nullopt;
    return *l.late_h * drying_factor(air, from_water(l));
}

bool refuses_uncured(const CoatFacts& over) {
    if (!over.order()) return false;
    const auto no = over.order()->sticks_not_to.find("uncured-oil");
    return no != over.order()->sticks_not_to.end() && no->second.value;
}

bool fills(const CoatFacts& l) { return l.ready && l.ready->kind == material::Kind::filler; }

// Minutes until a wiped coat's excess comes off: as said, else common practice.
double wipe_min(const CoatFacts& l, const Step& step, const Air& air) {
    if (step.flood_minutes) return *step.flood_minutes;
    if (l.wax()) return 15 * drying_factor(air, false);   // hazes over, then is buffed
    if (fills(l)) return 10 * drying_factor(air, false);  // dulls, then comes off across the grain
    if (l.method != Method::wipe) return 0;
    return l.oil() ? usual_oil_flood_min * drying_factor(air, false) : usual_flood_min;
}

std::string bare_preparation(const Step& step) {
    const std::string paper = step.sand ? base::at_most(*step.sand, 0) : "the final grit";
    return "sand to " + paper + " and take off all dust" +
           (step.water_pop ? "; wet it evenly and let it dry, so that the grain stands up" : "");
}

std::string preparation(const CoatFacts* under, const CoatFacts& over, double waited_h, const Step& step,
                        const Air& air) {
    if (!under) return bare_preparation(step);
    const bool scuff = step.scuff || step.sand;
    if (under->ready)
        if (const auto* t = std::get_if<material::Treatment>(&under->ready->data))
            return (t->neutralize.empty() ? std::string() : t->neutralize + "; ") +
                   "let the wood dry, and knock down raised grain without sanding through";
    if (fills(*under)) return "when the filler is hard, sand its haze off along the grain, and wipe off the dust";
    if (!under->binder) return over.binder ? "wipe off loose powder; do not sand through the color" : "";
    if (under->wax() || over.wax()) return "";
    const bool melts = std::any_of(over.carriers.begin(), over.carriers.end(),
                                   [&](const auto& c) { return under->lifted_by.count(c) > 0; });
    if (melts) return "sand off nibs only: it melts in";
    const auto* order = under->order();
    if (!order->needs_scuff || !order->needs_scuff->value)
        return scuff ? "scuff with 320 and wipe off the dust" : "knock down nibs with 320 and wipe off the dust";
    const auto late = late_h(*under, air);
    if (late && waited_h > *late)
        return "the window has shut: scuff with 320 until dull all over, and wipe off the dust";
    return "sand lightly with 320, and wipe off the dust";
}

double wait_for(const CoatFacts& under, const CoatFacts& over, const Step& step, const Air& air) {
    double wait = early_h(under, air);
    if (under.oil() && refuses_uncured(over) && under.order()->cure_days)
        wait = std::max(wait, under.order()->cure_days->value * 24 * drying_factor(air, false));
    return std::max(wait, step.after_days.value_or(0) * 24);
}

}  // namespace

Timeline timeline(const Finish& finish, const material::Materials& materials, const Air& air) {
    check(air);
    Timeline out;
    std::optional<CoatFacts> under;
    double at = 0;
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        const auto& step = finish.steps[s];
        const CoatFacts over = coat_facts(step, materials);
        for (int coat = 1; coat <= step.coats; ++coat) {
            const double wait = !under ? 0 : coat == 1 ? wait_for(*under, over, step, air) : early_h(over, air);
            at += wait;
            out.coats.push_back({static_cast<int>(s), coat, at,
                                 preparation(under ? &*under : nullptr, over, wait, step, air),
                                 wipe_min(over, step, air), early_h(over, air), late_h(over, air)});
            under = over;
        }
    }
    out.elapsed_h = at + (under ? early_h(*under, air) : 0);
    if (under && under->order() && under->order()->cure_days)
        out.cured_days = under->order()->cure_days->value * drying_factor(air, from_water(*under));
    return out;
}

}  // namespace foretone::schedule
