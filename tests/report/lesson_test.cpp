#include "foretone/report/lesson.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/base/number.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

job::LessonWork shipped(const std::string& file) {
    return job::lesson(scene::read_scene(std::string(FORETONE_SCENES) + "/lessons/" + file, library()), library(),
                       appearance::two_flux_solver());
}

std::string all_of(const std::vector<std::string>& sentences) {
    std::string out;
    for (const auto& s : sentences) out += s + "\n";
    return out;
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a lesson's answer is what preview computes, in words: the cut") {
    const auto w = shipped("01-cut.toml");
    CHECK(w.varies == job::Varies::cut);
    const auto answer = all_of(report::lesson_answer(w));
    const auto& p = w.preview;
    for (std::size_t i = 0; i < 3; ++i) {
        const auto letter = w.letter(i);
        CHECK(says(answer, letter + ": " + p.finishes[i].name));
        CHECK(says(answer, letter + " (" + p.finishes[i].name + ") L* " +
                               base::fixed(p.finishes[i].stages.back().colors[0].lab.l, 1)));
        CHECK(says(answer, letter + " " + base::fixed(p.finishes[i].stages.back().stage.film_um, 0) + " µm"));
    }
    CHECK(says(answer, p.differences[0].words + ", ΔE00 " + base::fixed(p.differences[0].de00, 1)));
    CHECK(says(answer, "Dry film on the wood: "));
    CHECK_FALSE(says(answer, "Dye that stays"));  // there is none
}

TEST_CASE("a lesson of stages says which stage is nearest to the end; a front gives nothing away") {
    const auto w = shipped("08-wet-and-dry.toml");
    CHECK(w.varies == job::Varies::stage);
    // A damp board looks like a coated one, a dry one does not (common practice).
    CHECK(says(all_of(report::lesson_answer(w)), "The wet board is nearer to the finished one than the dry: ΔE00 "));
    const auto page = report::lesson_pages(w, 8, 10);
    CHECK(page.overline == "A lesson in finishing: 8 of 10");
    CHECK(says(page.question, "Put the letters in that order"));
    CHECK_FALSE(page.bare);
    CHECK(page.boards.size() == 5);
    CHECK(page.made.size() == 1);
    CHECK(says(page.shop, "D65, 2° observer, 45/0. Rests on memory"));
    CHECK_FALSE(page.cautions.empty());
}

TEST_CASE("lessons of years and of lights say what changes, and by what") {
    const auto years = shipped("10-years.toml");
    const auto text = all_of(report::lesson_answer(years));
    CHECK(says(text, "If one part alone had aged, ΔE00 from new at the end: the wood "));
    CHECK(says(text, "A range, not one color"));
    const auto lights = shipped("06-light.toml");
    CHECK(lights.varies == job::Varies::light);
    CHECK(says(all_of(report::lesson_answer(lights)), "Lamp light"));
    CHECK(says(all_of(report::lesson_answer(lights)), "CAM16-UCS"));
    const auto page = report::lesson_pages(lights, 1, 1);
    CHECK(page.overline == "A lesson in finishing");
    CHECK(page.choices.size() == 4);
    const auto j = nlohmann::json::parse(report::lessons_json({lights}, layout::Paper::letter));
    CHECK(j.at("paper") == "letter");
    CHECK(j.at("lessons").at(0).at("differs") == "light");
    CHECK(j.at("lessons").at(0).at("boards").size() == 4);
    CHECK(j.at("lessons").at(0).at("boards").at(0).at("letter") == "A");
    CHECK(j.at("lessons").at(0).at("answer").size() == page.answer.size());
}
