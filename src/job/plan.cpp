#include "foretone/job/plan.hpp"
#include "foretone/job/plan_leads.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/appearance/stages.hpp"
#include "foretone/job/board_code.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/printed.hpp"

namespace foretone::job {
namespace {

std::string action_of(const schedule::Step& step, const material::Materials& materials) {
    std::string text;
    for (const auto& part : step.mix) text += (text.empty() ? "" : " + ") + materials.at(part.use).name;
    if (step.cut_lb) text += ", " + base::at_most(*step.cut_lb, 2) + "-lb cut";
    if (step.ready_cut_lb) text += " (from a ready " + base::at_most(*step.ready_cut_lb, 2) + "-lb cut)";
    return text;
}

PlanStep plan_step(const schedule::Step& step, const material::Materials& materials, const PlanRequest& request) {
    const auto d = schedule::deposit(step, materials);
    PlanStep out;
    out.action = action_of(step, materials);
    out.method = schedule::method_of(step, materials);
    out.coats = step.coats;
    out.wet_um = d.wet_um;
    out.dry_um = d.binder_um;
    out.coverage_m2_per_l = schedule::coverage_m2_per_l(d.wet_um);
    out.loss = schedule::loss_share(out.method);
    out.ml = schedule::ml_for_area(step, materials, request.area_m2);
    out.sheen_gu60 = step.sheen_gu60;
    out.pot = schedule::pot(step, materials, out.ml, request.tools);
    return out;
}

void refuse_failures(const scene::Scene& scene, std::size_t finish, const std::vector<schedule::Finding>& findings) {
    scene::Problems problems;
    for (const auto& f : findings) {
        if (f.severity != schedule::Severity::failure) continue;
        std::string text = f.what + ": " + f.why + ".";
        for (std::size_t i = 0; i < f.mends.size(); ++i) text += (i == 0 ? " Mend: " : "; or ") + f.mends[i].text;
        problems.add(f.id, scene.places.at(finish).at(static_cast<std::size_t>(f.step)).step, text);
    }
    problems.raise();
}

// Water comes from the tap; all else is added up over the steps, and rounded up to packs where the scene prices them.
void purchases(const scene::Scene& scene, Plan& out) {
    for (const auto& step : out.steps)
        for (const auto& m : step.pot.measures) {
            if (m.id == "water" || !(m.exact > 0)) continue;
            auto at = std::find_if(out.purchases.begin(), out.purchases.end(),
                                   [&](const auto& p) { return p.id == m.id && p.weighed == m.weighed; });
            if (at == out.purchases.end())
                at = out.purchases.insert(at, {m.id, scene.materials.at(m.id).name, m.weighed, 0, 0, 0});
            at->amount += m.measured > 0 ? m.measured : m.exact;
        }
    for (const auto& p : out.purchases)
        if (const auto* liquid = std::get_if<material::Liquid>(&scene.materials.at(p.id).data); liquid && !p.weighed)
            out.solvent_g += p.amount * liquid->density_g_per_ml.value;
    for (const auto& p : out.purchases) {
        const auto& m = scene.materials.at(p.id);
        if (p.weighed || std::holds_alternative<material::Liquid>(m.data) || facts(m.kind).powder) continue;
        const auto can = scene.cans.find(p.id);
        if (can != scene.cans.end() && can->second.voc_g_per_l)
            out.can_voc_g += p.amount / 1000 * *can->second.voc_g_per_l;
        else
            out.voc_unsaid.push_back(p.name);
    }
    for (auto& p : out.purchases) {
        const auto pack = scene.prices.packs.find(p.id);
        if (pack == scene.prices.packs.end()) continue;
        const double size = p.weighed ? pack->second.g : pack->second.ml;
        if (!(size > 0)) {
            out.notes.push_back("the price of " + p.name + " is by " + (p.weighed ? "volume" : "weight") +
                                ", but it is measured the other way: not counted");
            continue;
        }
        p.packs = static_cast<int>(std::ceil(p.amount / size - 1e-9));
        p.cost = p.packs * pack->second.price;
        out.cost += p.cost;
    }
    for (const auto& [id, pack] : scene.prices.packs)
        if (std::none_of(out.purchases.begin(), out.purchases.end(),
                         [&, name = id](const auto& p) { return p.id == name; }))
            out.notes.push_back("a price is given for '" + id + "', which this finish does not use");
}

void write_label(Plan& out) {
    out.label = {out.title, out.wood, out.finish};
    for (std::size_t i = 0; i < out.steps.size(); ++i) {
        const auto& s = out.steps[i];
        std::string line = fmt::format("{}. {}, {}, {} {} of {} wet", i + 1, s.action,
                                       material::method_words[static_cast<std::size_t>(s.method)], s.coats,
                                       s.coats == 1 ? "coat" : "coats",
                                       schedule::printed(s.wet_um, schedule::Dimension::film, out.request.units));
        if (s.sheen_gu60) line += ", " + base::at_most(*s.sheen_gu60, 0) + " GU at 60 degrees";
        out.label.push_back(std::move(line));
    }
    out.label.emplace_back("code: " + out.code + "  board: ________  date: ________  by: ________");
}

}  // namespace

Plan plan(const scene::Scene& scene, const PlanRequest& request) {
    const auto& finish = scene.finishes.at(request.finish);
    Plan out;
    out.title = scene.title;
    out.job_notes = scene.notes;
    out.wood = scene.materials.at(scene.wood).name;
    out.finish = finish.name;
    out.currency = scene.prices.currency;
    out.request = request;
    out.notes = schedule::air_notes(request.air);
    out.findings = schedule::check_order(finish, scene.materials, &scene.wood_data());
    refuse_failures(scene, request.finish, out.findings);
    for (std::size_t s = 0; s < finish.steps.size(); ++s) {
        try {
            out.steps.push_back(plan_step(finish.steps[s], scene.materials, request));
        } catch (const schedule::Fault& fault) {
            throw scene.at(fault, request.finish, s);
        }
        for (const auto& note : out.steps.back().pot.notes)
            out.notes.push_back("step " + std::to_string(s + 1) + ": " + note);
    }
    const auto accounts = appearance::accounts(scene.materials, scene.wood, finish);
    for (std::size_t s = 0; s < out.steps.size(); ++s) out.steps[s].accounts = accounts[s];
    out.timeline = schedule::timeline(finish, scene.materials, request.air);
    keep_hours(out.timeline, request.start, request.hours, out.notes);
    for (const auto& c : out.timeline.coats) out.when.push_back(moment(request.start, c.at_h, request.units));
    out.done = moment(request.start, out.timeline.elapsed_h, request.units);
    purchases(scene, out);
    for (auto& lead : leads_of(finish, scene.materials)) out.notes.push_back(std::move(lead));
    for (auto& note : pot_lives(scene, finish, out)) out.notes.push_back(std::move(note));
    out.code = board_code(finish);
    write_label(out);
    out.cautions = cautions_of(scene.materials, finish);
    return out;
}

}  // namespace foretone::job
