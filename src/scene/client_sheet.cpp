#include "foretone/scene/client_sheet.hpp"

#include <algorithm>
#include <set>
#include <tuple>

#include "client_sheet_words.hpp"
#include "findings_json.hpp"
#include "foretone/color/words.hpp"
#include "foretone/scene/cautions.hpp"
#include "foretone/scene/json.hpp"
#include "foretone/scene/recipe.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/judge.hpp"

namespace foretone::scene {
namespace {
using Json = nlohmann::ordered_json;

std::vector<std::size_t> chosen_finishes(const Scene& scene, const std::vector<std::string>& wanted) {
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    std::vector<std::size_t> chosen;
    if (wanted.empty())
        for (std::size_t i = 0; i < names.size(); ++i) chosen.push_back(i);
    for (const auto& name : wanted) {
        const auto at = std::find(names.begin(), names.end(), name);
        if (at == names.end())
            throw InputError("finish-unknown", {scene.file},
                             "there is no finish \"" + name + "\"." + suggestion(name, names));
        const auto index = static_cast<std::size_t>(at - names.begin());
        if (std::find(chosen.begin(), chosen.end(), index) == chosen.end()) chosen.push_back(index);
    }
    if (chosen.size() > picture::client_sheet_most) {
        std::vector<std::string> quoted;
        for (const std::size_t i : chosen) quoted.push_back("\"" + names[i] + "\"");
        throw InputError("finish-too-many", {scene.file},
                         std::to_string(chosen.size()) +
                             " finishes do not go on one sheet: choose up to four of them, each with "
                             "--finish NAME, from " +
                             either(quoted));
    }
    return chosen;
}

std::vector<std::string> two_lights(const std::vector<std::string>& lights) {
    if (lights.size() >= 2) return {lights[0], lights[1]};
    if (lights.empty() || lights[0] == "D65" || lights[0] == "A") return {"D65", "A"};
    return {"D65", lights[0]};
}

bool is_colorant(const material::Material& m) { return m.kind == "dye" || m.kind == "pigment" || m.kind == "stock"; }

/// A finish's last step that leaves a binder, its colorants left out, as a finish of its own.
struct ClearCandidate {
    schedule::Step step;
    std::size_t finish = 0, from = 0;  ///< whose step it is
    int rank = 0;                      ///< film 0, oil 1, wax 2
    double absorption = 0;             ///< of the dry binder at 450 nm, 1/mm
    bool whole = false;                ///< the finish is nothing but this step
};

std::optional<ClearCandidate> clear_of(const Scene& scene, std::size_t finish) {
    const auto& steps = scene.finishes[finish].steps;
    for (std::size_t s = steps.size(); s-- > 0;) {
        ClearCandidate c{steps[s], finish, s, 2, 0, false};
        std::erase_if(c.step.mix, [&](const auto& p) { return is_colorant(scene.shelf.at(p.use)); });
        c.whole = steps.size() == 1 && c.step.mix.size() == steps[s].mix.size();
        if (c.step.mix.size() == 1) c.step.mix.front() = {c.step.mix.front().use, schedule::Amount::parts, 1};
        if (!c.whole) c.step.after_days.reset(), c.step.scuff = false;
        try {
            const auto d = schedule::deposit(c.step, scene.shelf);
            if (c.step.mix.empty() || d.binder_um <= 0) continue;
            c.absorption = d.binder_absorption_per_mm.values[(450 - spectral::grid_start_nm) / spectral::grid_step_nm];
        } catch (const schedule::Fault&) {
            continue;  // without its colorants this mix no longer works out
        }
        for (const auto& p : c.step.mix) {
            const auto& kind = scene.shelf.at(p.use).kind;
            c.rank = std::min(c.rank, kind == "film" ? 0 : kind == "oil" ? 1 : 2);
        }
        return c;
    }
    return std::nullopt;
}

std::optional<ClearCandidate> clear_control(const Scene& scene) {
    std::optional<ClearCandidate> best;
    for (std::size_t f = 0; f < scene.finishes.size(); ++f) {
        const auto c = clear_of(scene, f);
        if (!c) continue;
        const auto key = [](const ClearCandidate& k) { return std::tuple(k.rank, k.absorption, k.whole ? 0 : 1); };
        if (!best || key(*c) < key(*best)) best = c;
    }
    return best;
}

std::string clear_name(const ClearCandidate& c, const Scene& scene, bool shown) {
    std::string text;
    for (const auto& p : c.step.mix) text += (text.empty() ? "" : " and ") + scene.shelf.at(p.use).name;
    text += " alone, " + std::to_string(c.step.coats) + (c.step.coats == 1 ? " coat" : " coats");
    return "Clear: " + text + (shown ? ", as " + picture::letter_of(c.finish) : "");
}

/// The scene with what is shown, and nothing else.
Scene cut_down(const Scene& scene, const std::vector<std::size_t>& chosen) {
    Scene out = scene;
    out.finishes.clear();
    out.places.clear();
    for (const std::size_t i : chosen) {
        out.finishes.push_back(scene.finishes[i]);
        out.places.push_back(scene.places.at(i));
    }
    out.look.lights = two_lights(scene.look.lights);
    // The reference of a preview must be one of its finishes; the sheet compares with the clear control.
    if (out.target && !out.target->finish.empty()) out.target.reset();
    return out;
}

picture::ClientBoard board_of(const SeenStage& stage, const SeenFinish& finish, std::size_t light, bool with_range) {
    picture::ClientBoard b{stage.colors[light].screen.code, stage.colors[light].screen.in_gamut, {}};
    if (with_range)
        for (const auto& shown : finish.may_be[light]) b.may_be.push_back(shown.code);
    return b;
}

picture::ClientRow row_of(const ClientSheetWork& work, std::size_t index) {
    const auto& seen = work.preview.finishes[index];
    const auto& finish = work.preview.scene.finishes[index];
    const auto& last = seen.stages.back();
    picture::ClientRow row;
    row.name = seen.name;
    row.sheen = finished_sheen_text(seen, finish, work.preview.scene.shelf);
    if (work.clear && *work.clear == index)
        row.against = "the clear control";
    else if (work.clear)
        row.against =
            "Against clear: " +
            color::describe(work.preview.finishes[*work.clear].stages.back().colors[0].lab, last.colors[0].lab);
    row.spread = spread_text(last);
    row.recipe = recipe_text(finish, work.preview.scene.shelf);
    row.fails = schedule::fails(seen.findings);
    for (std::size_t l = 0; l < 2; ++l) row.by_light[l] = board_of(last, seen, l, true);
    return row;
}

void add_findings(picture::ClientSheet& page, const SeenFinish& seen, std::size_t index) {
    const std::string letter = picture::letter_of(index);
    std::string refusal;
    std::set<std::string> said;  // a schedule may make one mistake several times
    for (const auto& f : seen.findings) {
        const std::string text = finding_text(f, letter);
        if (!said.insert(text).second) continue;
        if (f.severity != schedule::Severity::failure)
            page.mind.push_back(text);
        else
            refusal += (refusal.empty() ? "" : " ") + text;
    }
    if (!refusal.empty()) page.refusals.push_back(refusal);
}

picture::ClientSheet words_of(const ClientSheetWork& work, const std::string& date, const std::string& clear) {
    const auto& p = work.preview;
    picture::ClientSheet page;
    page.title = p.scene.title;
    page.wood = p.wood_name;
    page.facts = "Colors computed, " + geometry_text(p.scene.look.geometry) + ", " +
                 (p.scene.look.observer == "10deg" ? "10°" : "2°") + " observer";
    for (std::size_t l = 0; l < 2; ++l) page.lights[l] = light_text(p.scene.look.lights[l]);
    page.bare.name = "Bare wood";
    for (std::size_t l = 0; l < 2; ++l)
        page.bare.by_light[l] = board_of(p.finishes.front().stages.front(), p.finishes.front(), l, false);
    if (work.clear) {
        page.clear.emplace();
        page.clear->name = clear;
        const auto& seen = p.finishes[*work.clear];
        for (std::size_t l = 0; l < 2; ++l) page.clear->by_light[l] = board_of(seen.stages.back(), seen, l, false);
    }
    std::vector<const SeenFinish*> shown;
    Scene own = p.scene;
    own.finishes.resize(work.shown);
    bool in_gamut = true;
    for (std::size_t i = 0; i < work.shown; ++i) {
        page.finishes.push_back(row_of(work, i));
        add_findings(page, p.finishes[i], i);
        shown.push_back(&p.finishes[i]);
        for (const auto& b : page.finishes.back().by_light) in_gamut = in_gamut && b.in_gamut;
    }
    page.vary = vary_text(shown, p.scene);
    page.rests_on = rests_on_text(shown, p.scene.shelf);
    for (auto& c : all_cautions(cautions_of(own))) page.cautions.push_back({c.id, c.text});
    page.boards =
        "The boards are drawn at true size, not photographed: the same piece of wood under every finish. Below each "
        "board: the "
        "average color computed, flat; then what real boards may turn out as (9 of 10), pale to dark.";
    if (p.scene.look.geometry == optics::Geometry::d8_included)
        page.boards += " The average is what an instrument reads that takes in the gloss: paler than the board shows.";
    if (!in_gamut) page.boards += " A cut corner: the color is stronger than a picture can show.";
    page.date = date;
    return page;
}

}  // namespace

ClientSheetWork client_sheet(const Scene& scene, const Library& library, const appearance::Solver& solver,
                             const SheetRequest& request) {
    const auto chosen = chosen_finishes(scene, request.finishes);
    Scene own = cut_down(scene, chosen);
    ClientSheetWork work;
    work.shown = chosen.size();
    if (scene.look.lights.size() > 2) work.lights_left_out = scene.look.lights.size() - 2;
    std::string name;
    if (const auto clear = clear_control(own)) {
        work.clear = clear->whole ? clear->finish : own.finishes.size();
        name = clear_name(*clear, own, clear->whole);
        if (!clear->whole) {
            own.finishes.push_back({name, {clear->step}, false});
            own.places.push_back({own.places[clear->finish].at(clear->from)});
        }
    }
    work.preview = preview(own, library, solver);
    work.page = words_of(work, request.date, name);
    return work;
}

std::string client_sheet_json(const ClientSheetWork& work, picture::Paper paper) {
    const auto& p = work.preview;
    const auto colors = [&](const SeenStage& s) {
        Json list = Json::array();
        for (const auto& c : s.colors)
            list.push_back({{"light", c.light},
                            {"Lab", {c.lab.l, c.lab.a, c.lab.b}},
                            {"hex", c.screen.hex()},
                            {"in_gamut", c.screen.in_gamut},
                            {"spread_dE00", c.spread_de00},
                            {"dE00_90", c.region.de00_90}});
        return list;
    };
    Json j;
    j["tool"] = {{"name", "foretone"}, {"version", version}, {"solver", p.solver}};
    j["scene"] = p.scene.title;
    j["wood"] = p.wood_name;
    j["paper"] = picture::size_of(paper).word;
    j["lights"] = p.scene.look.lights;
    j["bare"] = {{"colors", colors(p.finishes.front().stages.front())}};
    if (work.clear)
        j["clear"] = {{"name", work.page.clear->name}, {"colors", colors(p.finishes[*work.clear].stages.back())}};
    j["finishes"] = Json::array();
    for (std::size_t i = 0; i < work.shown; ++i) {
        const auto& row = work.page.finishes[i];
        j["finishes"].push_back({{"letter", picture::letter_of(i)},
                                 {"name", row.name},
                                 {"sheen", row.sheen},
                                 {"against", row.against},
                                 {"recipe", row.recipe},
                                 {"spread", row.spread},
                                 {"holds", !row.fails},
                                 {"colors", colors(p.finishes[i].stages.back())},
                                 {"findings", findings_json(p.finishes[i].findings)}});
    }
    j["varies"] = work.page.vary;
    j["rests_on"] = work.page.rests_on;
    j["cautions"] = Json::array();
    for (const auto& c : work.page.cautions) j["cautions"].push_back({{"id", c.id}, {"text", c.text}});
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::scene
