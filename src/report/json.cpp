#include "foretone/report/tool_json.hpp"
#include "foretone/report/json.hpp"

#include "finish_json.hpp"
#include "json_values.hpp"

namespace foretone::report {
namespace {
Json earlier_json(const std::vector<job::EarlierReading>& list) {
    Json j = Json::array();
    for (const auto& e : list)
        j.push_back({{"entry", e.entry},
                     {"date", e.date},
                     {"sample", e.sample},
                     {"light", e.light},
                     {"read_Lab", {e.read.l, e.read.a, e.read.b}},
                     {"now_Lab", {e.now.l, e.now.a, e.now.b}},
                     {"dE00", e.de00},
                     {"same_recipe", e.same_recipe}});
    return j;
}

}  // namespace

Json warnings_json(const std::vector<scene::Problem>& list) {
    Json j = Json::array();
    for (const auto& w : list) j.push_back({{"id", w.id}, {"where", w.place.text()}, {"text", w.text}});
    return j;
}

std::string preview_json(const job::Preview& p, const scene::Notebook& notebook) {
    Json j;
    j["tool"] = tool_json(p.solver);
    j["scene"] = p.scene.title;
    if (!p.scene.notes.empty()) j["job_notes"] = p.scene.notes;
    j["wood"] = p.wood_name;
    j["finishes"] = Json::array();
    for (std::size_t i = 0; i < p.finishes.size(); ++i) {
        j["finishes"].push_back(finish_json(p.finishes[i], p.scene.look));
        if (notebook.there) j["finishes"].back()["earlier"] = earlier_json(job::earlier_readings(notebook, p, i));
    }
    j["differences"] = Json::array();
    for (const auto& d : p.differences)
        j["differences"].push_back({{"from", d.from},
                                    {"to", d.to},
                                    {"light", d.light},
                                    {"dE00", d.de00},
                                    {"spread_dE00", d.spread.spread_de00},
                                    {"dE00_90", {d.spread.low_de00, d.spread.high_de00}},
                                    {"dE00_90_sampling_error", d.spread.sampling_error},
                                    {"chance_seen", d.chance_seen},
                                    {"chance_seen_other_board", d.chance_seen_other_board},
                                    {"words", d.words}});
    j["across_lights"] = Json::array();
    for (const auto& a : p.across)
        j["across_lights"].push_back({{"finish", a.finish},
                                      {"light", a.to},
                                      {"beside", a.from},
                                      {"dE_CAM16_UCS", a.de_ucs},
                                      {"words", a.words}});
    if (!p.scene.look.after.empty()) {
        const auto wood = job::age_class(p.scene);
        j["wood_ages_as"] = {{"class", wood.word}, {"meaning", wood.meaning}, {"published", wood.published}};
    }
    j["warnings"] = warnings_json(p.warnings);
    j["cautions"] = cautions_json(job::cautions_of(p.scene));
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

std::string colors_json(const std::vector<job::SeenColor>& colors, const std::string& observer,
                        const std::string& geometry, const std::vector<scene::Problem>& warnings) {
    Json j;
    j["tool"] = tool_json();
    j["colors"] = Json::array();
    for (const auto& c : colors) j["colors"].push_back(seen_color_json(c, observer, geometry, false));
    j["warnings"] = warnings_json(warnings);
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
