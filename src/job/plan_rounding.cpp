// A pot is measured out in whole steps of a scale and a syringe; on a small area that changes the ratio of what is in
// it, and so the color. The cost is ΔE00 between the finish as written and with that step as measured.
//
// The batch that keeps the ratio: with e the exact amount of one thing in the pot and t the step of its tool, batches
// k = j·t/e times as large, j = 1, 2, …, hit that thing exactly. Only there does a ratio get better than on either
// side, so these sizes, in rising order, are the ones to try.
#include "foretone/job/plan_rounding.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/color/words.hpp"
#include "foretone/job/pot_color.hpp"

namespace foretone::job {
namespace {

constexpr double largest_batch = 100;     // times what the area takes: more is no batch that anyone would mix
constexpr std::size_t sizes_tried = 100;  // a finish is worked out for each

// The worst light; the first of those that are alike to rounding, so that every machine names the same.
std::size_t worst_light(const std::vector<double>& de) {
    std::size_t worst = 0;
    for (std::size_t l = 1; l < de.size(); ++l)
        if (de[l] > de[worst] + 1e-6) worst = l;
    return worst;
}

// Its ΔE00; none if the measures make no finish any more.
std::optional<PlanRounding> rounding_cost(const Plan& plan, const scene::Scene& scene, std::size_t step,
                                          const schedule::Pot& pot, const scene::Library& library,
                                          const appearance::Solver& solver) {
    try {
        const auto de = rounding_de00(scene, plan.request.finish, step, pot, library, solver);
        const auto worst = worst_light(de);
        return PlanRounding{de.at(worst), scene.look.lights.at(worst), std::nullopt};
    } catch (const schedule::Fault&) {
        return std::nullopt;
    }
}

std::vector<double> larger_batches(const PlanStep& step, const schedule::Tools& tools) {
    std::vector<double> times;
    for (const auto& m : step.pot.measures) {
        const double tool = m.weighed ? tools.scale_g : tools.syringe_ml;
        if (!(m.exact > 0)) continue;
        const double first = std::ceil(m.exact / tool);
        for (std::size_t j = 0; j < sizes_tried; ++j) {
            const double k = (first + static_cast<double>(j)) * tool / m.exact;
            if (k > 1 && k <= largest_batch) times.push_back(k);
        }
    }
    std::sort(times.begin(), times.end());
    times.erase(std::unique(times.begin(), times.end(), [](double a, double b) { return b - a < 1e-9 * a; }),
                times.end());
    if (times.size() > sizes_tried) times.resize(sizes_tried);
    return times;
}

}  // namespace

void work_out_rounding(Plan& plan, const scene::Scene& scene, const scene::Library& library,
                       const appearance::Solver& solver) {
    const auto& steps = scene.finishes.at(plan.request.finish).steps;
    for (std::size_t i = 0; i < plan.steps.size(); ++i) {
        auto& step = plan.steps[i];
        const auto rounded = [](const auto& m) { return m.exact != m.measured; };
        if (std::none_of(step.pot.measures.begin(), step.pot.measures.end(), rounded)) continue;
        step.rounding = rounding_cost(plan, scene, i, step.pot, library, solver).value_or(PlanRounding{});
        if (step.rounding->de00 && *step.rounding->de00 < color::visible_de00) continue;
        for (const double times : larger_batches(step, plan.request.tools)) {
            const auto pot = schedule::pot(steps[i], scene.materials, times * step.ml, plan.request.tools);
            const auto better = rounding_cost(plan, scene, i, pot, library, solver);
            if (!better || !(*better->de00 < color::visible_de00)) continue;
            step.rounding->keeps = pot;
            break;
        }
    }
}

}  // namespace foretone::job
