#include "foretone/report/tool_json.hpp"
#include "foretone/report/client_sheet.hpp"

#include <set>

#include "client_sheet_words.hpp"
#include "json_values.hpp"
#include "foretone/base/text.hpp"
#include "foretone/color/words.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/findings_json.hpp"
#include "foretone/report/recipe.hpp"
#include "foretone/report/sureness.hpp"

namespace foretone::report {
namespace {

layout::ClientBoard board_of(const job::SeenStage& stage, const job::SeenFinish& finish, std::size_t light,
                             bool with_range) {
    layout::ClientBoard b{stage.colors[light].screen.code, stage.colors[light].screen.in_gamut, {}};
    if (with_range)
        for (const auto& shown : finish.plausible[light]) b.plausible.push_back(shown.code);
    if (with_range && !finish.aged.empty())
        for (const auto& shown : finish.aged.back().plausible[light]) b.later.push_back(shown.code);
    return b;
}

layout::ClientRow row_of(const job::ClientSheetWork& work, std::size_t index) {
    const auto& seen = work.preview.finishes[index];
    const auto& finish = work.preview.scene.finishes[index];
    const auto& last = seen.stages.back();
    layout::ClientRow row;
    row.name = seen.name;
    row.sheen = finished_sheen_text(seen, finish, work.preview.scene.materials).words;
    if (work.clear && *work.clear == index)
        row.against = "the clear control";
    else if (work.clear)
        row.against =
            "Against clear: " +
            color::describe(work.preview.finishes[*work.clear].stages.back().colors[0].lab, last.colors[0].lab);
    row.spread = spread_words(last);
    row.recipe = recipe_text(finish, work.preview.scene.materials, Figures::none);
    row.fails = schedule::fails(seen.findings);
    for (std::size_t l = 0; l < 2; ++l) row.by_light[l] = board_of(last, seen, l, true);
    return row;
}

void add_findings(layout::ClientSheet& page, const job::SeenFinish& seen, std::size_t index) {
    const std::string letter = layout::letter_of(index);
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

/// What of a finish's sheen is figures, and the whole of it.
std::string with_figures(const std::string& sheen, const std::string& figures) {
    return figures.empty() ? sheen : sheen + ", " + figures;
}

layout::ClientSheet words_of(const WrittenSheet& work, const std::string& date) {
    const auto& p = work.preview;
    layout::ClientSheet page;
    page.title = p.scene.title;
    page.wood = p.wood_name;
    page.facts = "Colors computed for the two lights below";
    const auto lights = light_texts(p.scene.look.lights);
    for (std::size_t l = 0; l < 2; ++l) page.lights[l] = lights[l];
    page.bare.name = "Bare wood";
    for (std::size_t l = 0; l < 2; ++l)
        page.bare.by_light[l] = board_of(p.finishes.front().stages.front(), p.finishes.front(), l, false);
    if (work.clear) {
        page.clear.emplace();
        page.clear->name = work.clear_name;
        const auto& seen = p.finishes[*work.clear];
        for (std::size_t l = 0; l < 2; ++l) page.clear->by_light[l] = board_of(seen.stages.back(), seen, l, false);
    }
    std::vector<const job::SeenFinish*> shown;
    scene::Scene own = p.scene;
    own.finishes.resize(work.shown);
    bool in_gamut = true;
    for (std::size_t i = 0; i < work.shown; ++i) {
        page.finishes.push_back(row_of(work, i));
        add_findings(page, p.finishes[i], i);
        shown.push_back(&p.finishes[i]);
        for (const auto& b : page.finishes.back().by_light) in_gamut = in_gamut && b.in_gamut;
    }
    page.vary = aged_words(shown) + vary_text(shown, p.scene);
    page.shop = shop_text(shown, work.gloss, p.scene.look, work.rests_on);
    for (auto& c : job::all_cautions(job::cautions_of(own))) page.cautions.push_back({c.id, c.text});
    page.boards =
        "The boards are drawn at true size, not photographed: the same piece of wood under every finish. Below each "
        "board: the "
        "average color computed, flat; then what real boards may turn out as (9 of 10), pale to dark.";
    if (!p.scene.look.after.empty())
        page.boards += " The lower half of that strip: the same " +
                       job::after_text(p.scene.look.after.back(), p.scene.look.exposure) + ".";
    if (p.scene.look.geometry == optics::Geometry::d8_included)
        page.boards += " The average is what an instrument reads that takes in the gloss: paler than the board shows.";
    if (!in_gamut) page.boards += " A cut corner: the color is stronger than a picture can show.";
    page.date = date;
    page.notes = base::one_line(p.scene.notes);
    return page;
}

}  // namespace

WrittenSheet client_sheet(const scene::Scene& scene, const scene::Library& library, const appearance::Solver& solver,
                          const job::SheetRequest& request) {
    WrittenSheet sheet{job::client_sheet(scene, library, solver, request), {}, {}, {}};
    std::vector<const job::SeenFinish*> shown;
    for (std::size_t i = 0; i < sheet.shown; ++i) {
        const auto& own = sheet.preview.scene;
        shown.push_back(&sheet.preview.finishes[i]);
        sheet.gloss.push_back(finished_sheen_text(*shown.back(), own.finishes[i], own.materials).figures);
    }
    sheet.rests_on = rests_on_text(shown, sheet.preview.scene.materials);
    sheet.page = words_of(sheet, request.date);
    return sheet;
}

std::string client_sheet_json(const WrittenSheet& work, layout::Paper paper) {
    const auto& p = work.preview;
    const auto colors = [&](const job::SeenStage& s) {
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
    j["tool"] = tool_json(p.solver);
    j["scene"] = p.scene.title;
    if (!p.scene.notes.empty()) j["job_notes"] = p.scene.notes;
    j["wood"] = p.wood_name;
    j["paper"] = layout::size_of(paper).word;
    j["lights"] = p.scene.look.lights;
    j["bare"] = {{"colors", colors(p.finishes.front().stages.front())}};
    if (work.clear)
        j["clear"] = {{"name", work.page.clear->name}, {"colors", colors(p.finishes[*work.clear].stages.back())}};
    j["finishes"] = Json::array();
    for (std::size_t i = 0; i < work.shown; ++i) {
        const auto& row = work.page.finishes[i];
        j["finishes"].push_back({{"letter", layout::letter_of(i)},
                                 {"name", row.name},
                                 {"sheen", with_figures(row.sheen, work.gloss[i])},
                                 {"against", row.against},
                                 {"recipe", row.recipe},
                                 {"spread", row.spread},
                                 {"holds", !row.fails},
                                 {"colors", colors(p.finishes[i].stages.back())},
                                 {"findings", findings_json(p.finishes[i].findings)}});
        if (p.finishes[i].aged.empty()) continue;
        auto& later = j["finishes"].back()["aged"] = Json::array();
        for (const auto& a : p.finishes[i].aged) {
            later.push_back(
                {{"after", a.after.text}, {"exposure", material::word(a.exposure)}, {"colors", Json::array()}});
            for (std::size_t l = 0; l < a.colors.size(); ++l)
                later.back()["colors"].push_back({{"light", a.colors[l].light},
                                                  {"Lab", lab_json(a.colors[l].lab)},
                                                  {"hex", a.colors[l].screen.hex()},
                                                  {"from_new_dE00", a.from_new_de00[l]},
                                                  {"words", a.words[l]},
                                                  {"spread_dE00", a.colors[l].spread_de00},
                                                  {"dE00_90", a.colors[l].region.de00_90}});
        }
    }
    j["varies"] = work.page.vary;
    j["rests_on"] = work.rests_on;
    j["cautions"] = Json::array();
    for (const auto& c : work.page.cautions) j["cautions"].push_back({{"id", c.id}, {"text", c.text}});
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
