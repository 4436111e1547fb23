#include "foretone/job/plan_leads.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"
#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/pot_life.hpp"
#include "foretone/schedule/printed.hpp"

namespace foretone::job {
namespace {

// Dry flakes take a night to dissolve, and never all of them.
std::string flakes_lead(const schedule::Step& step, const material::Materials& materials) {
    if (step.ready_cut_lb) return "";
    for (const auto& part : step.mix) {
        const auto* b = std::get_if<material::Binder>(&materials.at(part.use).data);
        if (b && b->resin_density_g_per_ml)
            return "the day before: dissolve the flakes of " + materials.at(part.use).name +
                   ", shake it now and then, and strain it through a fine cloth";
    }
    return "";
}

// A filler is no stain: rubbed in and taken off across the grain, and hard before it is sealed.
std::string filler_lead(const schedule::Step& step, const material::Materials& materials) {
    for (const auto& part : step.mix)
        if (const auto& m = materials.at(part.use); m.kind == material::Kind::filler)
            return "rub " + m.name +
                   " in across the grain; when it dulls, take it off across the grain with coarse cloth, last lightly "
                   "along it. It is sealed when it is hard all through, not when it feels dry: in thick or cool pores "
                   "a "
                   "day more";
    return "";
}

}  // namespace

std::vector<std::string> leads_of(const schedule::Finish& finish, const material::Materials& materials) {
    std::vector<std::string> out;
    const auto add = [&](std::size_t step, const std::string& text) {
        if (!text.empty()) out.push_back("step " + std::to_string(step + 1) + ", " + text);
    };
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        const auto& step = finish.steps[s];
        add(s, flakes_lead(step, materials));
        add(s, filler_lead(step, materials));
        // Water on bare wood raises its grain; film formers are sanded after their first coat anyway.
        const auto mixture = schedule::mix(step, materials);
        const bool colors = std::any_of(step.mix.begin(), step.mix.end(), [&](const auto& p) {
            const auto& m = materials.at(p.use);
            return facts(m.kind).colorant && m.kind != material::Kind::treatment;
        });
        if (s == 0 && colors && mixture.carrier == "water" && !step.water_pop)
            add(s,
                "the day before: wet the wood, let it dry and sand the raised grain back with the last paper, or "
                "the color will raise it");
    }
    return out;
}

std::vector<std::string> pot_lives(const scene::Scene& scene, const schedule::Finish& finish, Plan& plan) {
    std::vector<std::string> out;
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        auto& step = plan.steps.at(s);
        std::string of;
        bool hardens = false;
        for (const auto& part : finish.steps[s].mix) {
            const auto& cautions = scene.materials.at(part.use).order.cautions;
            hardens = hardens || std::find(cautions.begin(), cautions.end(), "isocyanate") != cautions.end();
            const auto can = scene.cans.find(part.use);
            if (can == scene.cans.end() || !can->second.pot_life_h) continue;
            const double life = *can->second.pot_life_h;
            if (step.pot_life_h && *step.pot_life_h <= life) continue;
            step.pot_life_h = life;
            of = scene.materials.at(part.use).name;
        }
        const std::string at = "step " + std::to_string(s + 1) + ": ";
        if (!step.pot_life_h) {
            if (hardens)
                out.push_back(at +
                              "its pot life stands on the can; with pot_life_hours under [material.NAME] it is "
                              "reckoned with");
            continue;
        }
        std::vector<double> times;
        for (const auto& c : plan.timeline.coats)
            if (c.step == static_cast<int>(s)) times.push_back(c.at_h);
        const auto& air = plan.request.air;
        const double life = schedule::pot_life_h(*step.pot_life_h, air),
                     apart = times.empty() ? 0 : times.back() - times.front();
        step.pot_life_here_h = life;
        std::string text = at + "once mixed, " + of + " keeps ";
        if (air.celsius == 20)
            text += base::significant(life, 2) + " h, as its can says (half as long each 10 °C, 18 °F, warmer)";
        else
            text += "about " + base::significant(life, 2) + " h at " +
                    schedule::printed(air.celsius, schedule::Dimension::temperature, plan.request.units) +
                    ": its can's " + base::at_most(*step.pot_life_h, 1) +
                    " h taken as at 20 °C (68 °F), halved each 10 °C warmer (common practice)";
        text += ": mix it when all else is ready";
        if (apart > life)
            text += "; its coats go on over " + base::at_most(apart, 0) + " h, so mix each coat's share fresh, " +
                    schedule::printed(step.ml / step.coats, schedule::Dimension::volume, plan.request.units) +
                    " at a time";
        out.push_back(std::move(text));
    }
    return out;
}

}  // namespace foretone::job
