#include "foretone/report/tool_json.hpp"
#include "foretone/report/json.hpp"

#include "foretone/report/account_json.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/report/sureness.hpp"
#include "aged_json.hpp"
#include "json_values.hpp"

namespace foretone::report {
namespace {
Json range_json(const appearance::Region& r) {
    Json j;
    j["mean_Lab"] = {r.mean.l, r.mean.a, r.mean.b};
    j["covariance_Lab"] = r.covariance;
    j["dE00_90"] = r.de00_90;
    j["dE00_90_sampling_error"] = r.de00_90_error;
    j["half_axes_Lab"] = Json::array();
    for (const auto& axis : r.axes)
        j["half_axes_Lab"].push_back({{"length", axis.length}, {"direction", axis.direction}});
    return j;
}

Json color_json(const job::SeenColor& c, const std::string& observer, const std::string& geometry, bool with_spread) {
    Json j;
    j["light"] = c.light;
    j["observer"] = observer;
    j["geometry"] = geometry;
    j["XYZ"] = {c.xyz.x, c.xyz.y, c.xyz.z};
    j["Lab"] = {c.lab.l, c.lab.a, c.lab.b};
    j["appearance"] = {{"J", c.seen.lightness}, {"C", c.seen.chroma}, {"h", c.seen.hue_deg}};
    j["sRGB"] = c.screen.rgb;
    j["hex"] = c.screen.hex();
    j["in_gamut"] = c.screen.in_gamut;
    if (with_spread) {
        j["spread_dE00"] = c.spread_de00;
        j["rests_on_published_boards"] = c.published_boards;
        j["spread_materials_dE00"] = c.region.materials_de00;
        j["spread_boards_dE00"] = c.region.boards_de00;
        j["range"] = range_json(c.region);
    }
    return j;
}

Json stage_json(const job::SeenStage& s, const scene::Look& look) {
    Json stage;
    stage["stage"] = appearance::word(s.stage.kind);
    stage["after_step"] = s.stage.after_step;
    stage["coat"] = s.stage.coat;
    stage["action"] = s.stage.action;
    stage["film_um"] = s.stage.film_um;
    stage["uneven_dE00"] = s.uneven_de00;
    stage["account"] = account_json(s.stage.account);
    stage["reflectance"] = {
        {"start_nm", spectral::grid_start_nm}, {"step_nm", spectral::grid_step_nm}, {"values", s.reflectance.values}};
    stage["colors"] = Json::array();
    for (const auto& c : s.colors)
        stage["colors"].push_back(color_json(c, look.observer, scene::geometry_text(look.geometry), true));
    return stage;
}

Json finish_json(const job::SeenFinish& f, const scene::Look& look) {
    Json j;
    j["name"] = f.name;
    j["stages"] = Json::array();
    for (const auto& s : f.stages) j["stages"].push_back(stage_json(s, look));
    if (f.end_grain) j["end_grain"] = stage_json(*f.end_grain, look);
    j["rests_on"] = {{"mark", material::word(f.spread.rests_on)}, {"materials", f.spread.weakest}};
    j["no_published_board_of"] = f.footing.without;
    j["spread_from"] = Json::array();
    for (std::size_t i = 0; i < f.spread.contributions.size() && i < 3; ++i)
        j["spread_from"].push_back({{"figure", f.spread.contributions[i].what},
                                    {"dE00", f.spread.contributions[i].de00},
                                    {"kind", appearance::word(f.spread.contributions[i].origin)}});
    j["measure_next"] = measure_next_json(f.readings, f.next);
    j["warnings"] = warnings_json(f.warnings);
    j["findings"] = findings_json(f.findings);
    if (!f.aged.empty())
        j["aged"] = aged_json(f.aged, [&](const job::SeenColor& c) {
            return color_json(c, look.observer, scene::geometry_text(look.geometry), true);
        });
    return j;
}

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
    for (const auto& c : colors) j["colors"].push_back(color_json(c, observer, geometry, false));
    j["warnings"] = warnings_json(warnings);
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
