#include <nlohmann/json.hpp>

#include "foretone/report/tool_json.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/job/coats.hpp"
#include "foretone/report/json.hpp"
#include "json_values.hpp"

namespace foretone::report {
namespace {

Json color_json(const job::SeenColor& c, const std::string& observer, const scene::Scene& scene) {
    return {{"light", c.light},
            {"observer", observer},
            {"geometry", scene::geometry_text(scene.look.geometry)},
            {"XYZ", {c.xyz.x, c.xyz.y, c.xyz.z}},
            {"Lab", {c.lab.l, c.lab.a, c.lab.b}},
            {"sRGB", c.screen.rgb},
            {"hex", c.screen.hex()},
            {"in_gamut", c.screen.in_gamut},
            {"spread_dE00", c.spread_de00},
            {"spread_materials_dE00", c.region.materials_de00},
            {"spread_boards_dE00", c.region.boards_de00}};
}

Json target_json(const job::TargetView& t, const scene::Scene& scene) {
    Json j = {{"name", t.name}, {"spectral", t.reflectance.has_value()}, {"colors", Json::array()}};
    for (const auto& c : t.colors) {
        j["colors"].push_back(color_json(c, t.observer, scene));
        for (const char* key : {"spread_dE00", "spread_materials_dE00", "spread_boards_dE00"})
            j["colors"].back().erase(key);
    }
    return j;
}

Json count(const std::optional<int>& n) { return n ? Json(*n) : Json(nullptr); }

// Colors with what each says against the target.
Json compared_json(const std::vector<job::SeenColor>& colors, const std::vector<double>& de00,
                   const std::vector<double>& index, const std::vector<std::string>& words, const std::string& observer,
                   const scene::Scene& scene) {
    Json list = Json::array();
    for (std::size_t l = 0; l < colors.size(); ++l) {
        Json c = color_json(colors[l], observer, scene);
        if (!de00.empty()) c["dE00"] = de00[l];
        if (!index.empty()) c["metamerism_index"] = index[l];
        if (!words.empty()) c["words"] = words[l];
        list.push_back(std::move(c));
    }
    return list;
}

Json steps_json(const schedule::Finish& finish) {
    Json list = Json::array();
    for (const auto& step : finish.steps) {
        Json s;
        s["mix"] = Json::array();
        for (const auto& part : step.mix) {
            Json p = {{"use", part.use}};
            if (part.amount == schedule::Amount::rest)
                p["rest"] = true;
            else
                p[part.amount == schedule::Amount::percent_weight ? "percent_weight" : "parts"] = part.value;
            s["mix"].push_back(std::move(p));
        }
        s["coats"] = step.coats;
        if (step.method) s["method"] = material::method_words[static_cast<std::size_t>(*step.method)];
        if (step.cut_lb) s["cut_lb"] = *step.cut_lb;
        if (step.wet_g_per_m2) s["wet_g_per_m2"] = *step.wet_g_per_m2;
        if (step.sheen_gu60) s["sheen_gu60"] = *step.sheen_gu60;
        if (step.remainder) s["remainder"] = *step.remainder;
        if (step.passes) s["passes"] = *step.passes;
        if (step.toner_strength) s["toner_strength"] = *step.toner_strength;
        list.push_back(std::move(s));
    }
    return list;
}

std::string dump(const Json& j) { return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"; }

}  // namespace

std::string coats_json(const scene::Scene& scene, const job::Coats& coats) {
    const std::string observer = coats.target ? coats.target->observer : scene.look.observer;
    Json j = {{"tool", tool_json("two-flux")}, {"scene", scene.title}, {"wood", scene.materials.at(scene.wood).name}};
    j["finish"] = coats.finish;
    j["step"] = coats.step;
    j["what"] = coats.what;
    if (coats.target) j["target"] = target_json(*coats.target, scene);
    j["coats"] = Json::array();
    for (const auto& r : coats.counts) {
        Json count_of_coats = {
            {"coats", r.coats},
            {"film_um", r.film_um},
            {"colors", compared_json(r.colors, r.to_target, r.special_index, r.words, observer, scene)}};
        for (std::size_t l = 0; l < r.added.size(); ++l) count_of_coats["colors"][l]["added_dE00"] = r.added[l];
        count_of_coats["spread_dE00"] = r.spread;
        if (coats.target) {
            count_of_coats["spread_to_target_dE00"] = r.off_target;
            count_of_coats["chance_seen"] = r.chance;
            count_of_coats["chance_seen_other_board"] = r.chance_other_board;
            if (r.chance_within) count_of_coats["chance_within"] = *r.chance_within;
        }
        j["coats"].push_back(std::move(count_of_coats));
    }
    if (coats.target) j["nearest"] = count(coats.verdict.nearest);
    j["settled_after"] = count(coats.verdict.settled);
    if (coats.target) j["within_spread_at"] = count(coats.verdict.within);
    j["warnings"] = warnings_json(coats.warnings);
    return dump(j);
}

std::string match_json(const scene::Scene& scene, const job::Match& match) {
    Json j = {{"tool", tool_json("two-flux")},
              {"scene", scene.title},
              {"wood", scene.materials.at(scene.wood).name},
              {"target", target_json(match.target, scene)}};
    j["recipes"] = match.recipes;
    j["examined"] = match.examined;
    j["not_examined"] = match.not_examined;
    j["left_out"] = match.left_out;
    j["judge"] = {{"solver", "angular"}, {"streams", match.streams}, {"recipes", match.solved_again}};
    j["unreachable"] = match.unreachable;
    j["on_the_edge"] = match.edges;
    j["candidates"] = Json::array();
    for (const auto& c : match.candidates) {
        Json k = {{"recipe", c.line}, {"number", c.number}, {"step", steps_json(c.finish)}};
        k["steps"] = c.effort.steps;
        k["coats"] = c.effort.coats;
        k["colorants"] = c.effort.colorants;
        k["worst_dE00"] = c.worst;
        k["spread_dE00"] = c.spread;
        k["chance_seen"] = c.chance;
        k["chance_seen_other_board"] = c.chance_other_board;
        if (c.chance_within) k["chance_within"] = *c.chance_within;
        k["uneven_dE00"] = c.uneven_de00;
        k["best_of_kind"] = c.best_of_kind;
        k["place"] = c.place ? Json(c.place) : Json(nullptr);
        k["judge"] = {{"worst_dE00", c.angular_worst}, {"place", c.angular_place}};
        k["colors"] = compared_json(c.colors, c.de00, c.special_index, c.words, match.target.observer, scene);
        k["rests_on"] = {{"mark", material::word(c.rests_on.rests_on)}, {"materials", c.rests_on.weakest}};
        k["findings"] = findings_json(c.findings);
        j["candidates"].push_back(std::move(k));
    }
    j["warnings"] = warnings_json(match.warnings);
    return dump(j);
}

}  // namespace foretone::report
