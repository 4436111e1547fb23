// A pot is the step's own mix times a volume; every measure is then rounded by itself. The rounded step is the same
// step with absolute amounts, so that whatever looks at steps (color, build, cost) can look at the rounded one.

#include "foretone/schedule/pot.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/deposit.hpp"
#include "ready.hpp"

namespace foretone::schedule {
namespace {
using material::Binder;
using material::Materials;

const Binder* binder_of(const Materials& materials, const std::string& id) {
    return std::get_if<Binder>(&materials.at(id).data);
}

double round_into(Pot& out, const Materials& materials, const std::string& id, bool weighed, double exact,
                  const Tools& tools) {
    const double step = weighed ? tools.scale_g : pour_step(exact, tools);
    const double measured = to_step(exact, step);
    out.measures.push_back({id, weighed, exact, measured});
    if (!(measured > 0))
        out.notes.push_back(materials.at(id).name + ": " + base::at_most(exact, 3) + (weighed ? " g" : " mL") +
                            " is less than half a step of the " + (weighed ? "scale" : "syringe") +
                            " and is left out; make a pot " + base::at_most(std::ceil(step / exact), 0) +
                            " times as large, or use a weaker stock of it");
    return measured;
}

double resin_part(Pot& out, const Materials& materials, const PartAmount& part, const Binder& b, Tools tools) {
    const double alcohol = std::get<material::Liquid>(materials.at(b.carrier).data).density_g_per_ml.value;
    const CutDensities densities{b.resin_density_g_per_ml->value, alcohol};
    const double unit = material::cut_g_per_l_alcohol(1) / 1000;  // g of resin per mL of alcohol in a 1-lb cut
    double resin = 0, liquid = 0;
    if (out.step.ready_cut_lb) {
        // The ready solution is drawn up and thinned; what resin and alcohol it holds follows from its own cut.
        const double parts = thinning_parts(*out.step.ready_cut_lb, *part.cut_lb, gal_per_lb(densities.resin));
        const double ready = round_into(out, materials, part.id, false, part.ml / (1 + parts), tools);
        const CutRecipe held = cut_recipe(*out.step.ready_cut_lb, ready, densities);
        resin = held.resin_g;
        liquid = held.alcohol_ml;
        if (parts > 0) liquid += round_into(out, materials, b.carrier, false, part.ml * parts / (1 + parts), tools);
    } else {
        const CutRecipe r = cut_recipe(*part.cut_lb, part.ml, densities);
        resin = round_into(out, materials, part.id, true, r.resin_g, tools);
        liquid = round_into(out, materials, b.carrier, false, r.alcohol_ml, tools);
    }
    if (!(liquid > 0 && resin > 0)) return 0;
    out.step.cut_lb = std::clamp(resin / liquid / unit, 0.01, 10.0);
    return liquid + resin / densities.resin;
}

}  // namespace

double pour_step(double ml, const Tools& tools) {
    constexpr double most_steps = 200;
    double step = tools.syringe_ml;
    if (!(ml > tools.syringe_up_to_ml)) return step;
    // 1, 2, 4, 10, 20, 40 … times the syringe's: half a millilitre becomes 1, 2, 5, 10 mL.
    for (int i = 0; ml > most_steps * step && i < 60; ++i) step *= i % 3 == 2 ? 2.5 : 2;
    return step;
}

double loss_share(material::Method method) {
    switch (method) {
        case material::Method::wipe:
            return 0.15;
        case material::Method::brush:
            return 0.10;
        case material::Method::spray:
            return 0.40;
        case material::Method::roll:
            return 0.12;
    }
    throw std::invalid_argument("loss_share: no such method");
}

material::Method method_of(const Step& step, const Materials& materials) {
    if (step.method) return *step.method;
    if (const auto* ready = ready_of(step, materials)) return usual_method(*ready);
    const Mixture m = mix(step, materials);
    const Mixture::Binder* most = nullptr;
    for (const auto& b : m.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    if (!most || binder_of(materials, most->id)->stay.value < 0.5) return material::Method::wipe;
    return material::Method::brush;
}

double ml_for_area(const Step& step, const Materials& materials, double area_m2) {
    if (!(std::isfinite(area_m2) && area_m2 > 0))
        throw std::invalid_argument("ml_for_area: " + base::shortest(area_m2) + " m2 is no area");
    return deposit(step, materials).wet_um * area_m2 * step.coats /
           (1 - loss_share(method_of(step, materials)));  // 1 um over 1 m2 is 1 mL
}

Pot pot(const Step& step, const Materials& materials, double total_ml, Tools tools) {
    if (!(tools.scale_g > 0 && tools.syringe_ml > 0)) throw std::invalid_argument("pot: a scale or syringe of no step");
    Pot out;
    out.exact_ml = total_ml;
    out.step = step;
    out.step.mix.clear();
    const auto parts = amounts(step, materials, total_ml);
    const auto resins = std::count_if(parts.begin(), parts.end(), [](const auto& p) { return p.cut_lb.has_value(); });
    double smallest = 1e300, liquid_ml = 0;
    for (const auto& part : parts) {
        const Binder* b = binder_of(materials, part.id);
        if (part.powder) {
            const double g = round_into(out, materials, part.id, true, part.g, tools);
            if (g > 0) out.step.mix.push_back({part.id, Amount::g, g});
            out.measured_ml += g / (part.g / part.ml);
            continue;
        }
        // Of several resins in one mix, each is drawn up as the solution it is: one cut is said for all of them.
        const double ml = part.cut_lb && resins == 1 ? resin_part(out, materials, part, *b, tools)
                                                     : round_into(out, materials, part.id, false, part.ml, tools);
        if (ml > 0) out.step.mix.push_back({part.id, Amount::ml, ml});
        liquid_ml += ml;
        out.measured_ml += ml;
        smallest = std::min(smallest, part.ml);
    }
    if (!(liquid_ml > 0))
        throw Fault("pot-too-small", -1,
                    base::at_most(total_ml, 3) + " mL is too little to measure; make at least " +
                        base::at_most(total_ml * std::max(1.0, tools.syringe_ml / smallest), 1) + " mL");
    // A resin whose weight rounded to nothing leaves a cut that no step can have.
    if (std::none_of(out.step.mix.begin(), out.step.mix.end(), [&](const Part& p) {
            const auto* b = binder_of(materials, p.use);
            return b && b->resin_density_g_per_ml.has_value();
        }))
        out.step.cut_lb.reset();
    return out;
}

}  // namespace foretone::schedule
