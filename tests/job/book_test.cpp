#include "foretone/job/book.hpp"
#include "foretone/report/book.hpp"

#include <catch2/catch.hpp>

#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

scene::Scene book_scene(const std::string& wood, const std::string& more = "") {
    return scene::read_scene_text("format = 1\ntitle = \"t\"\n" + more + "[wood]\nuse = \"" + wood +
                                      "\"\n[[finish]]\nname = \"shellac\"\n[[finish.step]]\nuse = "
                                      "\"orange-shellac\"\nmethod = \"spray\"\n[[finish]]\nname = \"dyed\"\n"
                                      "[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 1 }, { use = \"water\", "
                                      "parts = 20 } ]\n[[finish.step]]\nuse = \"waterborne-acrylic\"\nmethod = "
                                      "\"spray\"\n",
                                  wood + ".toml", ".", library());
}

job::BookRequest small_chips(std::vector<std::string> woods = {}, std::string light = "") {
    return {std::move(woods), std::move(light), grain::Cut::flat, 48, 32, 50};
}

std::string refusal(const std::vector<scene::Scene>& scenes, const job::BookRequest& request) {
    try {
        job::book(scenes, library(), request);
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

}  // namespace

TEST_CASE(
    "a book is every finish on every wood, by wood, each wood bare first, with the colors that preview computes") {
    const auto scene = book_scene("ash");
    const auto b = job::book({scene}, library(), small_chips({"ash", "walnut"}));
    REQUIRE(b.chips.size() == 6);
    for (const std::size_t i : {0, 3}) CHECK(b.chips[i].name == "bare wood");
    CHECK(b.chips[2].wood == "ash");
    CHECK(b.chips[5].wood == "walnut");
    CHECK(b.chips[5].name == "dyed");
    const auto p = job::preview(scene, library(), appearance::two_flux_solver());
    for (std::size_t f = 0; f < 2; ++f) {
        const auto& due = p.finishes[f].stages.back().colors[0];
        CHECK(color::delta_e_00(b.chips[f + 1].lab, due.lab) < 1e-9);
        CHECK(b.chips[f + 1].screen.code == due.screen.code);
        // Fewer worlds: the 90 % within a fifth of what a preview's sets say (a choice: a strip shows no more).
        CHECK(std::abs(b.chips[f + 1].region.de00_90 / due.region.de00_90 - 1) < 0.2);
        CHECK(b.chips[f + 1].plausible.size() == 12);
    }
    CHECK(color::delta_e_00(b.chips[0].lab, p.finishes[0].stages[0].colors[0].lab) < 1e-9);
    for (const auto& c : b.chips) CHECK((c.picture.width == 48 && c.picture.height == 32));
    CHECK(b.rests_on == material::Mark::memory);
    CHECK_FALSE(b.cautions.empty());
}

TEST_CASE("scenes of one wood share its bare chip and its piece of wood; other looks are told") {
    const auto other = book_scene("ash", "[look]\nlights = [\"A\"]\nobserver = \"10deg\"\n");
    const auto b = job::book({book_scene("ash"), book_scene("walnut"), other}, library(), small_chips());
    REQUIRE(b.chips.size() == 8);
    CHECK(b.chips[3].scene == 2);
    CHECK(b.chips[1].picture.rgb == b.chips[3].picture.rgb);
    CHECK(b.chips[5].wood == "walnut");
    REQUIRE(b.warnings.size() >= 1);
    const auto& told = b.warnings.back();
    CHECK(told.id == "book-look");
    CHECK(told.text.find("under another light, by another observer") != std::string::npos);
    CHECK(job::book({other}, library(), small_chips()).light == "A");
}

TEST_CASE("a book of two scenes that mean two woods by one id has a piece of each, and one piece of what is the same") {
    const auto own = [](const std::string& file, const std::string& absorbency) {
        return scene::read_scene_text("format = 1\ntitle = \"" + file +
                                          "\"\n[wood]\nuse = \"own-board\"\n[material.own-board]\nkind = "
                                          "\"wood\"\nlike = \"ash\"\nabsorbency = " +
                                          absorbency +
                                          "\n[[finish]]\nname = \"dyed\"\n[[finish.step]]\nmix = [ { use = "
                                          "\"honey-dye\", parts = 1 }, { use = \"water\", parts = 20 } ]\n",
                                      file + ".toml", ".", library());
    };
    const std::vector scenes = {own("thirsty", "2.0"), own("hard", "0.5"), own("hard again", "0.5")};
    const auto b = job::book(scenes, library(), small_chips());
    REQUIRE(b.chips.size() == 5);  // bare and dyed, bare and dyed, dyed
    const std::size_t pieces[] = {0, 0, 1, 1, 1};
    for (std::size_t i = 0; i < 5; ++i) CHECK(b.chips[i].piece == pieces[i]);
    CHECK(b.chips[2].finish.steps.empty());
    CHECK(b.chips[3].picture.rgb == job::book({scenes[1]}, library(), small_chips()).chips[1].picture.rgb);
    CHECK(b.chips[3].picture.rgb == b.chips[4].picture.rgb);
    CHECK(b.chips[3].picture.rgb != b.chips[1].picture.rgb);
    auto drawn = b;
    const auto index = report::book_pages(drawn, scenes, "").woods;
    REQUIRE(index.size() == 2);
    CHECK(index[0].where == "No. 1, 2");
    CHECK(index[1].where == "No. 3 to 5");
    CHECK(index[0].head != index[1].head);
}

TEST_CASE("what cannot go into a book is refused, with what would be right") {
    const auto scene = book_scene("ash");
    CHECK(refusal({scene}, small_chips({"walnutt"})).find("walnut") != std::string::npos);
    CHECK(refusal({scene}, small_chips({"walnutt"})).find("[material-unknown]") != std::string::npos);
    CHECK(refusal({scene}, small_chips({"water"})).find("[material-kind]") != std::string::npos);
    CHECK(refusal({scene}, small_chips({}, "D66x")).find("[light-unknown]") != std::string::npos);
    auto none = scene;
    none.finishes.clear();
    CHECK(refusal({none}, small_chips()).find("[finish-empty]") != std::string::npos);
    CHECK(refusal(std::vector<scene::Scene>(500, scene), small_chips()).find("[book-too-many]") != std::string::npos);
}
