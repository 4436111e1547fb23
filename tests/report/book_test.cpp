#include "foretone/report/book.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

TEST_CASE("a book's pages and its JSON say the same of every chip; the index names every finish once, by letters") {
    const std::vector scenes = {
        scene::read_scene(std::string(FORETONE_SCENES) + "/linseed-then-waterborne.toml", library())};
    auto book = job::book(scenes, library(), {{"ash", "cherry"}, "A", grain::Cut::flat, 48, 32, 50});
    const auto count = 2 * (scenes[0].finishes.size() + 1);
    REQUIRE(book.chips.size() == count);
    const auto j = nlohmann::json::parse(report::book_json(book, scenes, "", layout::Paper::a4, 2));
    const auto page = report::book_pages(book, scenes, "");
    REQUIRE(page.chips.size() == count);
    CHECK(page.title == scenes[0].title + ": swatch book");
    CHECK(page.facts.find("Lamp light. " + std::to_string(count) + " chips") == 0);
    bool failing = false;
    for (std::size_t i = 0; i < count; ++i) {
        const auto& c = page.chips[i];
        CHECK(c.number == std::to_string(i + 1));
        CHECK(c.light == "Lamp light");
        CHECK(j.at("chips").at(i).at("finish") == c.name);
        CHECK(j.at("chips").at(i).at("holds") == !c.fails);
        CHECK(c.vary.find("Boards may differ ") == 0);
        CHECK(c.picture.width == 48);
        for (const char* figure : {"ΔE", "45/0", "D65", "µm"})
            CHECK((c.name + c.wood + c.light + c.vary + c.recipe).find(figure) == std::string::npos);
        failing = failing || c.fails;
    }
    CHECK(failing);
    CHECK(page.chips[0].wood == "White ash, sapwood");
    REQUIRE(page.finishes.size() == scenes[0].finishes.size() + 1);
    CHECK(std::is_sorted(page.finishes.begin(), page.finishes.end(),
                         [](const auto& a, const auto& b) { return a.head < b.head; }));
    CHECK(page.finishes[0].where.find("No. 1 White ash, sapwood · ") != std::string::npos);
    REQUIRE(page.woods.size() == 2);
    CHECK(page.woods[0].where == "No. 1 to " + std::to_string(count / 2));
    CHECK(page.shop.find("A, 2° observer, 45/0. Rests on memory") == 0);
    CHECK(j.at("chips").at(1).at("code").get<std::string>().size() == 6);
    CHECK(j.at("light") == "A");
    CHECK(report::book_pages(book, scenes, "Autumn").title == "Autumn");
}

TEST_CASE("a book's index keeps apart finishes of one name that differ in the sheen, and those in the wet film alone") {
    const std::string text = "format = 1\ntitle = \"t\"\n[wood]\nuse = \"ash\"\n";
    const std::string one = "[[finish.step]]\nuse = \"waterborne-acrylic\"\nmethod = \"spray\"\n";
    std::vector<scene::Scene> scenes;
    for (const char* more : {"sheen_gu60 = 30\n", "sheen_gu60 = 90\n", "wet_um = 60\n", "wet_um = 60\n"})
        scenes.push_back(
            scene::read_scene_text(text + "[[finish]]\nname = \"clear\"\n" + one + more, "t.toml", ".", library()));
    auto book = job::book(scenes, library(), {{}, "", grain::Cut::flat, 48, 32, 50});
    const auto page = report::book_pages(book, scenes, "");
    REQUIRE(page.finishes.size() == 4);
    CHECK(page.finishes[0].head == "bare wood");
    CHECK(page.finishes[1].text.find("1 coat sprayed, satin; code ") != std::string::npos);
    CHECK(page.finishes[2].text.find("1 coat sprayed, high gloss; code ") != std::string::npos);
    CHECK(page.finishes[3].text.find("1 coat sprayed; code ") != std::string::npos);
    CHECK(page.finishes[3].where.find("No. 4 ") == 0);
    CHECK(page.finishes[3].where.find(" · 5 ") != std::string::npos);
    CHECK(page.chips[1].recipe.find("satin") != std::string::npos);
}
