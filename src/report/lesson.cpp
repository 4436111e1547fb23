#include "foretone/report/lesson.hpp"

#include <algorithm>

#include "client_sheet_words.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/job/cautions.hpp"
#include "foretone/report/recipe.hpp"
#include "foretone/report/tool_json.hpp"
#include "json_values.hpp"
#include "lesson_words.hpp"

namespace foretone::report {
namespace {
using job::LessonWork;
using job::Varies;

std::string question_of(const LessonWork& w) {
    const auto& said = w.preview.scene.lesson;
    if (said && !said->empty()) return *said;
    const bool one_board = w.preview.finishes.size() == 1;
    return std::string(one_board ? "One board, several times" : "These boards differ in one thing") + ": " +
           std::string(job::meaning(w.varies)) + ". Which is which, and how can you tell?";
}

std::string figures_of(const LessonWork& w, std::size_t board) {
    const auto& c = w.color(w.boards[board]);
    return "L* " + base::fixed(c.lab.l, 1) + ", a* " + base::fixed(c.lab.a, 1) + ", b* " + base::fixed(c.lab.b, 1);
}

std::vector<light::Code> strip_of(const LessonWork& w, const job::LessonBoard& b) {
    const auto& f = w.preview.finishes[b.finish];
    std::vector<light::Code> out;
    if (b.time)
        for (const auto& d : f.aged[*b.time].plausible[b.light]) out.push_back(d.code);
    else if (b.stage + 1 == f.stages.size())
        for (const auto& d : f.plausible[b.light]) out.push_back(d.code);
    return out;
}

std::vector<std::pair<std::string, std::string>> made(const LessonWork& w) {
    const auto& scene = w.preview.scene;
    if (w.preview.finishes.size() == 1)
        return {{"", "All of them: " + recipe_text(scene.finishes[0], scene.materials, Figures::all) + "."}};
    std::vector<std::pair<std::string, std::string>> out;
    for (const std::size_t b : w.lettered)
        out.emplace_back(w.letter(b), recipe_text(scene.finishes[w.boards[b].finish], scene.materials, Figures::all));
    return out;
}

}  // namespace

std::string board_name(const LessonWork& work, std::size_t board) {
    if (work.varies == Varies::light) return light_texts(work.preview.scene.look.lights)[work.boards[board].light];
    return work.boards[board].name;
}

layout::Lesson lesson_pages(const LessonWork& w, std::size_t number, std::size_t count) {
    const auto& p = w.preview;
    layout::Lesson out;
    out.overline = "A lesson in finishing" +
                   (count > 1 ? ": " + std::to_string(number) + " of " + std::to_string(count) : std::string());
    out.title = p.scene.title;
    out.facts = p.wood_name + (w.varies == Varies::light ? "" : " · " + light_text(p.scene.look.lights[0]));
    out.question = question_of(w);
    for (std::size_t b = 0; b < w.boards.size(); ++b) out.choices.push_back(board_name(w, b));
    std::sort(out.choices.begin(), out.choices.end(), [](const std::string& a, const std::string& b) {
        return std::pair(base::lower(a), a) < std::pair(base::lower(b), b);
    });
    for (const std::size_t b : w.lettered) {
        const auto& color = w.color(w.boards[b]);
        out.boards.push_back({w.letter(b), board_name(w, b), figures_of(w, b), color.screen.code, color.screen.in_gamut,
                              strip_of(w, w.boards[b])});
    }
    for (std::size_t b = 0; b < w.boards.size(); ++b)
        out.in_order.push_back(
            static_cast<std::size_t>(std::find(w.lettered.begin(), w.lettered.end(), b) - w.lettered.begin()));
    // Of the stages bare wood is one; under several lights it would be several.
    out.bare = w.varies != Varies::stage && w.varies != Varies::light;
    out.bare_code = p.finishes[0].stages[0].colors[0].screen.code;
    out.answer = lesson_answer(w);
    out.made = made(w);
    out.mind =
        "The same piece of wood on every board, drawn from computed colors. Below each board its "
        "average color, flat, and of finished ones what real boards may turn out as (9 of 10), pale to dark. Make the "
        "boards: screens and prints are not the sample.";
    std::vector<const job::SeenFinish*> shown;
    for (const auto& f : p.finishes) shown.push_back(&f);
    for (auto& c : job::all_cautions(job::cautions_of(p.scene))) out.cautions.push_back({c.id, c.text});
    out.shop = "For the shop: " + base::joined(p.scene.look.lights, ", ", " and ") + ", " +
               (p.scene.look.observer == "10deg" ? "10" : "2") + "° observer, " +
               scene::geometry_text(p.scene.look.geometry) + ". Rests on " + rests_on_text(shown, p.scene.materials);
    return out;
}

std::string lessons_json(const std::vector<LessonWork>& lessons, layout::Paper paper) {
    Json j;
    j["tool"] = tool_json(appearance::two_flux_solver().name);
    j["paper"] = layout::size_of(paper).word;
    j["lessons"] = Json::array();
    for (const auto& w : lessons) {
        Json one = {{"scene", w.preview.scene.title}, {"file", w.preview.scene.file}, {"wood", w.preview.wood_name},
                    {"differs", job::word(w.varies)}, {"question", question_of(w)},   {"boards", Json::array()},
                    {"answer", lesson_answer(w)}};
        for (const std::size_t b : w.lettered) {
            const auto& c = w.color(w.boards[b]);
            one["boards"].push_back({{"letter", w.letter(b)},
                                     {"name", w.boards[b].name},
                                     {"light", c.light},
                                     {"Lab", lab_json(c.lab)},
                                     {"hex", c.screen.hex()}});
        }
        one["cautions"] = Json::array();
        for (const auto& c : job::all_cautions(job::cautions_of(w.preview.scene)))
            one["cautions"].push_back({{"id", c.id}, {"text", c.text}});
        one["warnings"] = warnings_json(w.preview.warnings);
        j["lessons"].push_back(std::move(one));
    }
    return j.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
}

}  // namespace foretone::report
