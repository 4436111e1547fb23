#include "foretone/job/plan_leads.hpp"

#include <algorithm>

#include "foretone/schedule/mixture.hpp"

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

}  // namespace foretone::job
