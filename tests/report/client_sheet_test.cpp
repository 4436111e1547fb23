#include "foretone/report/client_sheet.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/report/recipe.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

report::WrittenSheet sheet(const std::string& text, const job::SheetRequest& request = {}) {
    return report::client_sheet(scene::read_scene_text(text, "test.toml", ".", library()), library(),
                                appearance::two_flux_solver(), request);
}

report::WrittenSheet demo_sheet(const std::string& file, const job::SheetRequest& request = {}) {
    return report::client_sheet(scene::read_scene(std::string(FORETONE_SCENES) + "/" + file, library()), library(),
                                appearance::two_flux_solver(), request);
}

const std::string head = "format = 1\ntitle = \"t\"\n[wood]\nuse = \"ash\"\n";

std::string finish(const std::string& name, const std::string& steps) {
    return "[[finish]]\nname = \"" + name + "\"\n" + steps;
}

const std::string varnish = "[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\nmethod = \"brush\"\n";
const std::string acrylic =
    "[[finish.step]]\nuse = \"waterborne-acrylic\"\ncoats = 2\nmethod = \"spray\"\nsheen_gu60 = 30\n";
const std::string dye =
    "[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 4 }, { use = \"water\", parts = 45 } ]\nwet_g_per_m2 = "
    "65\n";

std::string refused(const std::string& text, const job::SheetRequest& request) {
    try {
        sheet(text, request);
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

}  // namespace

TEST_CASE("the sheet shows what preview computes, under the look's first two lights") {
    const auto work = demo_sheet("library-oak.toml");
    const auto full = demo("library-oak.toml");
    REQUIRE(work.page.finishes.size() == 4);
    CHECK(work.page.lights[0] == "Daylight");
    CHECK(work.page.lights[1] == "Lamp light");
    for (std::size_t i = 0; i < 4; ++i)
        for (std::size_t l = 0; l < 2; ++l) {
            CHECK(work.page.finishes[i].name == full.finishes[i].name);
            CHECK(work.page.finishes[i].by_light[l].chip == full.finishes[i].stages.back().colors[l].screen.code);
            CHECK(work.page.finishes[i].by_light[l].plausible.size() == 24);
            CHECK(work.page.bare.by_light[l].chip == full.finishes[0].stages.front().colors[l].screen.code);
        }
}

TEST_CASE("of one light the sheet makes two") {
    const auto lights = [&](const std::string& look) {
        return sheet("format = 1\ntitle = \"t\"\n" + look + "[wood]\nuse = \"ash\"\n" + finish("v", varnish))
            .preview.scene.look.lights;
    };
    CHECK(lights("") == std::vector<std::string>{"D65", "A"});
    CHECK(lights("[look]\nlights = [\"A\"]\n") == std::vector<std::string>{"D65", "A"});
    CHECK(lights("[look]\nlights = [\"LED-4000\"]\n") == std::vector<std::string>{"D65", "LED-4000"});
    CHECK(lights("[look]\nlights = [\"F11\", \"D50\", \"A\"]\n") == std::vector<std::string>{"F11", "D50"});
    CHECK(sheet(head + "[look]\nlights = [\"F11\", \"D50\", \"A\"]\n" + finish("v", varnish)).lights_left_out == 1);
    CHECK(sheet(head + finish("v", varnish)).lights_left_out == 0);
}

TEST_CASE("a chip that takes in the gloss says why it is paler than the board above it") {
    const auto said = [&](const std::string& geometry) {
        const auto work = sheet(head + "[look]\ngeometry = \"" + geometry + "\"\n" + finish("v", varnish));
        return work.page.boards.find("takes in the gloss") != std::string::npos;
    };
    CHECK(said("d/8-included"));
    CHECK_FALSE(said("d/8-excluded"));
    CHECK_FALSE(said("45/0"));
}

TEST_CASE("findings of the demo with most of them stand whole on the sheet") {
    const auto work = demo_sheet("library-oak.toml");
    REQUIRE_FALSE(work.page.mind.empty());
    const auto flat = [](const layout::BoardWanted& w) {
        return light::Image::filled(w.width, w.height, {150, 110, 70});
    };
    for (const auto paper : {layout::Paper::a4, layout::Paper::letter}) {
        std::string words;
        for (const auto& t : layout::lay_out(work.page, paper, flat).texts) words += t.text + " ";
        for (const auto& finding : work.page.mind) {
            INFO(finding);
            CHECK(words.find(finding.substr(finding.rfind(' ') + 1)) != std::string::npos);  // its last word
        }
        CHECK(words.find("…") == std::string::npos);
    }
}

TEST_CASE("the clear control is the palest film of the shown finishes, without its colorants") {
    const auto added = sheet(head + finish("a", dye + varnish) + finish("b", dye + acrylic));
    REQUIRE(added.clear);
    CHECK(*added.clear == 2);
    CHECK(added.shown == 2);
    CHECK(added.page.finishes.size() == 2);
    CHECK(added.page.clear->name == "Clear: Waterborne acrylic alone, 2 coats");
    // On bare wood, as a finish of its own would be.
    const auto alone = worked(head + "[look]\nlights = [\"D65\", \"A\"]\n" + finish("x", acrylic));
    CHECK(added.page.clear->by_light[0].chip == alone.finishes[0].stages.back().colors[0].screen.code);

    const auto shown = sheet(head + finish("a", dye + varnish) + finish("b", acrylic));
    CHECK(*shown.clear == 1);
    CHECK(shown.page.clear->name == "Clear: Waterborne acrylic alone, 2 coats, as B");
    CHECK(shown.page.finishes[1].against == "the clear control");
    CHECK(shown.page.finishes[0].against.find("Against clear: ") == 0);

    const auto tinted = sheet(
        head + finish("a",
                      "[[finish.step]]\nmix = [ { use = \"blonde-shellac\", rest = true }, { use = \"solvent-red-24\", "
                      "percent_weight = 0.01 } ]\ncut_lb = 2\nmethod = \"spray\"\n"));
    REQUIRE(tinted.clear);
    CHECK(tinted.page.clear->name == "Clear: Blonde shellac (dewaxed) alone, 1 coat");
    CHECK(tinted.preview.scene.finishes[1].steps[0].mix.size() == 1);

    CHECK_FALSE(sheet(head + finish("a", dye)).clear);
    CHECK(sheet(head + finish("a",
                              "[[finish.step]]\nuse = \"boiled-linseed\"\nmethod = \"wipe\"\n[[finish.step]]\nuse = "
                              "\"paste-wax\"\nmethod = "
                              "\"wipe\"\n"))
              .page.clear->name == "Clear: Paste wax alone, 1 coat");
}

TEST_CASE("a finish is chosen by name, in the order asked for") {
    const std::string six = head + finish("a", varnish) + finish("b", acrylic) + finish("c", varnish) +
                            finish("d", varnish) + finish("e", varnish) + finish("f", varnish);
    const auto two = sheet(six, {{"f", "b", "f"}, "2 March"});
    REQUIRE(two.page.finishes.size() == 2);
    CHECK(two.page.finishes[0].name == "f");
    CHECK(two.page.finishes[1].name == "b");
    CHECK(two.page.date == "2 March");
    const auto many = refused(six, {});
    CHECK(many.find("[finish-too-many]") != std::string::npos);
    CHECK(many.find("--finish NAME") != std::string::npos);
    CHECK(many.find("\"e\" or \"f\"") != std::string::npos);
    const auto unknown = refused(six, {{"bb"}, ""});
    CHECK(unknown.find("there is no finish \"bb\"") != std::string::npos);
    CHECK(unknown.find("[finish-unknown]") != std::string::npos);
    CHECK(refused(head, {}).find("finish") != std::string::npos);
}

TEST_CASE("what will not hold is refused on the page, and what may fail is minded") {
    const auto linseed = demo_sheet("linseed-then-waterborne.toml");
    CHECK(linseed.page.finishes[0].fails);
    CHECK_FALSE(linseed.page.finishes[1].fails);
    REQUIRE(linseed.page.refusals.size() == 1);
    CHECK(linseed.page.refusals[0].find("A WILL NOT HOLD: Waterborne acrylic over Boiled linseed oil") == 0);
    CHECK(linseed.page.refusals[0].find("Mend: wait until") != std::string::npos);
    const auto waxed = demo_sheet("waxed-under-polyurethane.toml");
    CHECK(waxed.page.refusals.empty());
    REQUIRE(!waxed.page.mind.empty());
    CHECK(waxed.page.mind[0].find("A ") == 0);
    CHECK(waxed.page.mind[0].find("(conflicting)") != std::string::npos);
    const auto& cautions = linseed.page.cautions;
    CHECK(std::any_of(cautions.begin(), cautions.end(), [](const auto& c) { return c.id == "oily-rags"; }));
}

TEST_CASE("recipes are said in trade words, with the wet film that plan works with") {
    const auto s = scene::read_scene(std::string(FORETONE_SCENES) + "/stool-maple.toml", library());
    CHECK(report::recipe_text(s.finishes[2], s.materials) ==
          "1 Honey dye 4 : Russet dye 1 : Water 45 by volume, 1 coat wiped 65 µm wet; 2 Orange shellac (dewaxed), "
          "1.5-lb cut, "
          "1 coat sprayed "
          "60 µm wet; 3 Waterborne acrylic, 2 coats brushed 90 µm wet, 30 GU");
    const auto pine = scene::read_scene(std::string(FORETONE_SCENES) + "/wash-coat-pine.toml", library());
    CHECK(report::step_text(pine.finishes[0].steps[0], pine.materials) ==
          "Orange shellac (waxed), 1-lb cut from a ready 3-lb cut, 1 coat brushed 75 µm wet");
    const auto oak = scene::read_scene(std::string(FORETONE_SCENES) + "/library-oak.toml", library());
    CHECK(
        report::step_text(oak.finishes[3].steps[0], oak.materials)
            .find(
                "Blonde shellac (dewaxed) + Solvent Red 24 0.008 % by weight + Solvent Orange 7 0.04 % by weight, 2-lb "
                "cut, 2 coats sprayed") == 0);
    auto waits = pine.finishes[0].steps[1];
    waits.scuff = true;
    waits.after_days = 1;
    CHECK(report::step_text(waits, pine.materials).find(", scuffed first, 1 day after") != std::string::npos);
    CHECK(report::recipe_text({}, pine.materials) == "nothing: bare wood");
}

TEST_CASE("gloss has its trade words") {
    CHECK(report::sheen_text(3) == "dead flat");
    CHECK(report::sheen_text(5) == "matte");
    CHECK(report::sheen_text(18) == "eggshell");
    CHECK(report::sheen_text(30) == "satin");
    CHECK(report::sheen_text(40) == "semi-gloss");
    CHECK(report::sheen_text(80) == "gloss");
    CHECK(report::sheen_text(95) == "high gloss");
}

TEST_CASE("spread, sheen, variation and provenance are said in words with their figures") {
    const auto work = demo_sheet("stool-maple.toml");
    const auto& row = work.page.finishes[2];
    CHECK(row.sheen == "satin");
    CHECK(work.gloss[2] == "30 gloss units");
    CHECK(row.spread.find("Boards may differ ") == 0);
    // The client reads no figures of instruments; the shop has them from preview and plan.
    for (const auto& r : work.page.finishes)
        for (const char* figure : {"ΔE", "µm", "GU", "gloss unit", "45/0", "D65"})
            CHECK((r.spread + r.sheen + r.recipe + r.against + work.page.facts + work.page.lights[0]).find(figure) ==
                  std::string::npos);
    for (const char* figure : {"D65 and A, 2° observer, 45/0", "9 of 10 boards within ΔE00 A ", "(30 gloss units)"})
        CHECK(work.page.shop.find(figure) != std::string::npos);
    CHECK(row.spread.find("mostly ") != std::string::npos);
    CHECK(work.page.vary.find("Most of the spread here comes from ") != std::string::npos);
    CHECK(work.rests_on.find("memory (typical values from memory, not checked) for ") == 0);
    CHECK(work.rests_on.find("Hard maple (Acer saccharum)") != std::string::npos);
    const auto dyed = sheet(head + finish("a", dye));
    CHECK(dyed.page.finishes[0].sheen == "no film: the wood's own sheen");
    CHECK(dyed.page.finishes[0].against == "");
}

TEST_CASE("the sheet's JSON holds what the page says") {
    const auto work = demo_sheet("linseed-then-waterborne.toml", {{"three weeks", "two days"}, ""});
    const auto j = nlohmann::json::parse(report::client_sheet_json(work, layout::Paper::letter));
    CHECK(j.at("paper") == "letter");
    CHECK(j.at("lights").size() == 2);
    CHECK(j.at("finishes").at(0).at("letter") == "A");
    CHECK(j.at("finishes").at(0).at("name") == "three weeks");
    CHECK(j.at("finishes").at(0).at("holds") == true);
    CHECK(j.at("finishes").at(1).at("holds") == false);
    CHECK(j.at("finishes").at(1).at("findings").at(0).at("id") == "uncured-below");
    CHECK(j.at("finishes").at(0).at("colors").at(1).at("light") == "A");
    CHECK(j.at("clear").at("name").get<std::string>().find("Waterborne acrylic alone") != std::string::npos);
    CHECK(j.at("cautions").back().at("id") == "local-codes");
}
