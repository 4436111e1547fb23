#include "foretone/report/tool_json.hpp"
#include "foretone/report/account_json.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/job/plan.hpp"

namespace foretone::report {
namespace {
using Json = nlohmann::ordered_json;

Json measures_json(const schedule::Pot& pot) {
    Json list = Json::array();
    for (const auto& m : pot.measures)
        list.push_back(
            {{"material", m.id}, {"unit", m.weighed ? "g" : "mL"}, {"exact", m.exact}, {"measured", m.measured}});
    return list;
}

Json step_json(const job::PlanStep& s) {
    Json j = {{"action", s.action}, {"method", material::method_words[static_cast<std::size_t>(s.method)]},
              {"coats", s.coats},   {"wet_um", s.wet_um},
              {"dry_um", s.dry_um}, {"coverage_m2_per_l", s.coverage_m2_per_l},
              {"loss", s.loss},     {"mix_ml", s.ml}};
    if (s.pot_life_h) j["pot_life_h"] = *s.pot_life_h;
    if (s.pot_life_here_h) j["pot_life_here_h"] = *s.pot_life_here_h;
    if (s.sheen_gu60) j["sheen_gu60"] = *s.sheen_gu60;
    j["accounts"] = Json::array();
    for (const auto& a : s.accounts) j["accounts"].push_back(account_json(a));
    j["measures"] = measures_json(s.pot);
    if (!s.rounding) return j;
    j["rounding_dE00"] = s.rounding->de00 ? Json(*s.rounding->de00) : Json(nullptr);
    if (s.rounding->de00) j["rounding_light"] = s.rounding->light;
    j["rounding"] = rounding_text(s);
    if (const auto& pot = s.rounding->keeps)
        j["batch_that_keeps_color"] = {{"mix_ml", pot->exact_ml}, {"measures", measures_json(*pot)}};
    return j;
}

}  // namespace

std::string plan_json(const job::Plan& p) {
    Json j;
    j["tool"] = tool_json();
    j["scene"] = p.title;
    j["wood"] = p.wood;
    j["finish"] = p.finish;
    j["area_m2"] = p.request.area_m2;
    j["air"] = {{"celsius", p.request.air.celsius}, {"humidity_percent", p.request.air.humidity_percent}};
    j["steps"] = Json::array();
    for (const auto& s : p.steps) j["steps"].push_back(step_json(s));
    j["timeline"] = Json::array();
    for (std::size_t i = 0; i < p.timeline.coats.size(); ++i) {
        const auto& c = p.timeline.coats[i];
        Json coat = {{"step", c.step + 1}, {"coat", c.coat},     {"at_h", c.at_h},
                     {"when", p.when[i]},  {"before", c.before}, {"recoat_earliest_h", c.earliest_h}};
        if (c.latest_h) coat["recoat_latest_h"] = *c.latest_h;
        if (c.wipe_min > 0) coat["wipe_min"] = c.wipe_min;
        j["timeline"].push_back(std::move(coat));
    }
    j["elapsed_days"] = p.timeline.elapsed_h / 24;
    j["done"] = p.done;
    if (p.timeline.cured_days) j["cure_days"] = *p.timeline.cured_days;
    j["buy"] = Json::array();
    for (const auto& b : p.purchases) {
        Json buy = {{"material", b.id}, {"name", b.name}, {"amount", b.amount}, {"unit", b.weighed ? "g" : "mL"}};
        if (b.packs > 0) buy["packs"] = b.packs, buy["cost"] = b.cost;
        j["buy"].push_back(std::move(buy));
    }
    if (p.cost > 0) j["cost"] = {{"sum", p.cost}, {"currency", p.currency}};
    if (p.solvent_g > 0) j["solvent_g"] = p.solvent_g;
    if (p.can_voc_g > 0) j["can_voc_g"] = p.can_voc_g;
    j["code"] = p.code;
    j["label"] = p.label;
    j["notes"] = p.notes;
    if (!p.job_notes.empty()) j["job_notes"] = p.job_notes;
    j["findings"] = findings_json(p.findings);
    j["cautions"] = cautions_json(p.cautions);
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
