#include "foretone/job/lesson.hpp"

#include <catch2/catch.hpp>
#include <filesystem>
#include <set>

#include "../../src/job/lesson_fields.hpp"
#include "foretone/report/lesson.hpp"
#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;
using job::Varies;

namespace {

const std::string lesson_head = "format = 1\ntitle = \"t\"\n[wood]\nuse = \"ash\"\n";

std::string board(const std::string& name, const std::vector<std::string>& steps) {
    std::string out = "[[finish]]\nname = \"" + name + "\"\n";
    for (const auto& s : steps) out += "[[finish.step]]\n" + s + "\n";
    return out;
}

scene::Scene scene_of(const std::string& text) { return scene::read_scene_text(text, "t.toml", ".", library()); }

Varies differs(const std::string& finishes) {
    return job::difference_of(scene_of(lesson_head + finishes).finishes, "t.toml");
}

std::string fault_of(const std::string& text) {
    try {
        job::lesson(scene_of(text), library(), appearance::two_flux_solver());
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

const std::string weak = "mix = [ { use = \"honey-dye\", parts = 1 }, { use = \"water\", parts = 40 } ]",
                  strong = "mix = [ { use = \"honey-dye\", parts = 1 }, { use = \"water\", parts = 10 } ]",
                  clear = "use = \"waterborne-acrylic\"\ncoats = 2\nmethod = \"spray\"",
                  shellac = "use = \"blonde-shellac\"\nmethod = \"spray\"";

}  // namespace

TEST_CASE("a lesson finds the one thing in which its boards differ") {
    CHECK(differs(board("a", {strong, clear}) + board("b", {weak, clear})) == Varies::strength);
    CHECK(differs(board("a", {shellac + "\ncut_lb = 1"}) + board("b", {shellac + "\ncut_lb = 3"})) == Varies::cut);
    CHECK(differs(board("a", {shellac + "\ncoats = 2"}) + board("b", {shellac})) == Varies::coats);
    CHECK(differs(board("a", {strong, shellac, clear}) + board("b", {shellac, strong, clear})) == Varies::order);
    CHECK(differs(board("a", {strong, clear}) + board("b", {shellac, strong, clear})) == Varies::step);
    CHECK(differs(board("a", {strong, clear}) + board("b", {strong, shellac + "\ncut_lb = 2"})) == Varies::topcoat);
    CHECK(differs(board("a", {shellac, clear}) + board("b", {strong, clear})) == Varies::material);
    CHECK(differs(board("a", {clear + "\nsheen_gu60 = 10"}) + board("b", {clear + "\nsheen_gu60 = 80"})) ==
          Varies::sheen);
    CHECK(differs(board("a", {strong + "\nsand = 120", clear}) + board("b", {strong + "\nsand = 320", clear})) ==
          Varies::grit);
    CHECK(differs(board("a", {strong + "\nwater_pop = true", clear}) + board("b", {strong, clear})) ==
          Varies::readying);
    for (int v = 0; v <= static_cast<int>(Varies::years); ++v) {
        CHECK_FALSE(job::word(static_cast<Varies>(v)).empty());
        CHECK_FALSE(job::meaning(static_cast<Varies>(v)).empty());
    }
}

TEST_CASE("every field that boards are compared by has a name for its difference, and no other has") {
    schedule::Step step;
    step.mix.resize(1);  // what goes on is said by a part
    std::set<std::string> compared, named;
    for (const auto& [field, value] : job::fields_of(step)) compared.insert(field);
    for (const auto& [field, varies] : job::meanings()) named.insert(field);
    CHECK(compared == named);
}

TEST_CASE("a lesson in two things at once, in nothing, or of one board is refused, with what it is") {
    const auto two =
        fault_of(lesson_head + board("a", {strong, clear}) + board("b", {weak, clear + "\nsheen_gu60 = 80"}));
    CHECK(two.find("[lesson-differs]") != std::string::npos);
    CHECK(two.find("amounts and sheen of step 1 and step 2") != std::string::npos);
    CHECK(fault_of(lesson_head + board("a", {clear}) + board("b", {clear})).find("nothing but their names") !=
          std::string::npos);
    // Two that are the same beside one that is not, by a field and by a step.
    for (const auto& third : {board("c", {weak, clear}), board("c", {strong, shellac, clear})})
        CHECK(fault_of(lesson_head + board("a", {strong, clear}) + board("b", {strong, clear}) + third)
                  .find("nothing but their names: \"a\" and \"b\"") != std::string::npos);
    const std::string look = "[look]\nlights = [\"D65\", \"A\"]\nafter = [\"1 year\"]\n";
    CHECK(fault_of(lesson_head + look + board("a", {clear})).find("[lesson-boards]") != std::string::npos);
    std::string seven;
    for (int i = 1; i <= 7; ++i) seven += board(std::to_string(i), {shellac + "\ncoats = " + std::to_string(i)});
    CHECK(fault_of(lesson_head + seven).find("7 finishes; a lesson has 2 to 6 boards") != std::string::npos);
    CHECK(fault_of(lesson_head).find("[finish-empty]") != std::string::npos);
}

TEST_CASE("a lesson of several finishes leaves other lights and times out, says so, and nothing else names them") {
    const auto w = job::lesson(scene_of(lesson_head + "[look]\nlights = [\"D65\", \"A\"]\nafter = [\"1 year\"]\n" +
                                        board("a", {weak}) + board("b", {strong})),
                               library(), appearance::two_flux_solver());
    REQUIRE_FALSE(w.preview.warnings.empty());
    CHECK(w.preview.warnings.back().id == "lesson-look");
    CHECK(w.preview.warnings.back().text.find("other lights than D65 and times after are left out") !=
          std::string::npos);
    CHECK(report::lesson_pages(w, 1, 1).shop.find("For the shop: D65, 2°") == 0);
    CHECK(w.preview.finishes[0].aged.empty());
}

TEST_CASE("one finish is a lesson of lights, of years, or of stages; every board has a letter of its own") {
    const auto of = [&](const std::string& look, const std::vector<std::string>& steps) {
        return job::lesson(scene_of(lesson_head + look + board("a", steps)), library(), appearance::two_flux_solver());
    };
    const auto lights = of("[look]\nlights = [\"D65\", \"A\", \"F11\"]\n", {clear});
    CHECK(lights.varies == Varies::light);
    REQUIRE(lights.boards.size() == 3);
    CHECK(lights.color(lights.boards[1]).light == "A");
    const auto years = of("[look]\nafter = [\"1 year\"]\n", {clear});
    CHECK(years.varies == Varies::years);
    REQUIRE(years.boards.size() == 2);
    CHECK(years.boards[1].name == "after 1 year in a room");
    CHECK(&years.color(years.boards[1]) == &years.preview.finishes[0].aged[0].colors[0]);
    const auto stages = of("", {strong, shellac + "\ncoats = 5", clear});
    CHECK(stages.varies == Varies::stage);
    REQUIRE(stages.boards.size() == 6);
    CHECK(stages.boards.front().name == "bare wood");
    CHECK(stages.boards[1].name == "Honey dye, still wet");
    CHECK(stages.boards.back().stage + 1 == stages.preview.finishes[0].stages.size());
    for (const auto* w : {&lights, &years, &stages})
        CHECK(std::set<std::size_t>(w->lettered.begin(), w->lettered.end()).size() == w->boards.size());
    CHECK_FALSE(std::is_sorted(stages.lettered.begin(), stages.lettered.end()));
    CHECK(stages.letter(stages.lettered[2]) == "C");
}

TEST_CASE("a lesson's boards are painted on one piece of wood, and an old one is another color") {
    const auto w = job::lesson(
        scene_of(lesson_head + "[look]\nafter = [\"20 years\"]\nexposure = \"sun\"\n" + board("a", {clear})), library(),
        appearance::two_flux_solver());
    const auto paint = job::lesson_painter(w, library(), grain::Cut::flat);
    const auto fresh = paint(0, 48, 32), old = paint(1, 48, 32), bare = paint(std::nullopt, 48, 32);
    CHECK(fresh.rgb == paint(0, 48, 32).rgb);
    CHECK(fresh.rgb != old.rgb);
    CHECK(fresh.rgb != bare.rgb);
}

TEST_CASE("every lesson that ships asks a question, and differs in one thing") {
    std::set<Varies> found;
    std::size_t count = 0;
    for (const auto& item : std::filesystem::directory_iterator(std::string(FORETONE_SCENES) + "/lessons")) {
        INFO(item.path().filename().string());
        const auto s = scene::read_scene(item.path(), library());
        CHECK(s.lesson.value_or("").ends_with("?"));
        ++count;
        if (s.finishes.size() > 1)
            found.insert(job::difference_of(s.finishes, s.file));
        else
            CHECK((s.look.lights.size() == 1 || s.look.after.empty()));
    }
    CHECK(count == 10);
    for (const auto v :
         {Varies::cut, Varies::coats, Varies::strength, Varies::order, Varies::grit, Varies::topcoat, Varies::step})
        CHECK(found.count(v) == 1);
}
