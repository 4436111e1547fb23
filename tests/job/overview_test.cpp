#include "foretone/job/overview.hpp"
#include "foretone/report/overview.hpp"

#include <catch2/catch.hpp>

#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

scene::Scene overview_scene(const std::string& name, const std::string& finishes, const std::string& looks = "") {
    return scene::read_scene_text(
        "format = 1\ntitle = \"" + name + "\"\n" + looks + "[wood]\nuse = \"ash\"\n" + finishes, name + ".toml", ".",
        library());
}

const std::string shellac_alone =
    "[[finish]]\nname = \"shellac\"\n[[finish.step]]\nuse = \"orange-shellac\"\nmethod = \"spray\"\ncoats = 2\n";
const std::string ironed_first =
    "[[finish]]\nname = \"iron\"\n[[finish.step]]\nuse = \"iron-solution\"\n[[finish.step]]\nuse = "
    "\"waterborne-acrylic\"\n";

std::string refusal_of(const std::vector<scene::Scene>& scenes, const std::vector<std::string>& woods) {
    try {
        job::overview(scenes, library(), woods, appearance::two_flux_solver());
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

}  // namespace

TEST_CASE("an overview has every finish on every wood, with the colors of a preview, whatever the threads") {
    const auto scene = overview_scene("bench", shellac_alone + ironed_first);
    const auto& solver = appearance::two_flux_solver();
    const auto all = job::overview({scene}, library(), {"ash", "hard-maple"}, solver, appearance::StagesAsked::all, 1);
    REQUIRE(all.boards.size() == 4);
    CHECK((all.boards[1].wood == "ash" && all.boards[1].seen.name == "iron" && all.boards[2].wood == "hard-maple"));
    const auto p = job::preview(scene, library(), solver);
    for (std::size_t f = 0; f < 2; ++f) {
        const auto &seen = all.boards[f].seen, &due = p.finishes[f];
        REQUIRE(seen.stages.size() == due.stages.size());
        for (std::size_t s = 0; s < due.stages.size(); ++s)
            CHECK(seen.stages[s].colors[0].xyz == due.stages[s].colors[0].xyz);
        // Two sets of worlds where a preview draws six: one standard deviation within a tenth (a choice: of one
        // decimal of ± 3 that is a few tenths).
        const double spread = seen.stages.back().colors[0].spread_de00;
        CHECK(std::abs(spread / due.stages.back().colors[0].spread_de00 - 1) < 0.1);
        CHECK(seen.spread.rests_on == due.spread.rests_on);
    }
    CHECK(report::overview_json(all) == report::overview_json(job::overview({scene}, library(), {"ash", "hard-maple"},
                                                                            solver, appearance::StagesAsked::all, 2)));
    // Bare and finished boards alone are as sure as beside the stages between them.
    const auto ends = job::overview({scene}, library(), {"ash"}, solver, appearance::StagesAsked::first_and_last);
    for (std::size_t f = 0; f < 2; ++f) {
        const auto &seen = ends.boards[f], &due = all.boards[f];
        CHECK(seen.bare().colors[0].region.rms_de00 == due.bare().colors[0].region.rms_de00);
        CHECK(seen.finished().colors[0].region.rms_de00 == due.finished().colors[0].region.rms_de00);
        CHECK(seen.finished().colors[0].spread_de00 == due.finished().colors[0].spread_de00);
    }
    // Iron needs tannin, which maple has not: that board says so, and stands.
    CHECK(report::remarks(all.boards[3]).find("no-tannin") != std::string::npos);
    CHECK(report::remarks(all.boards[2]).empty());
    CHECK(all.boards[2].words.find("darker") != std::string::npos);
    CHECK_FALSE(all.cautions.empty());
}

TEST_CASE("a board that cannot be worked out says why, and the others stand") {
    auto scene = overview_scene("bench", shellac_alone + ironed_first);
    scene.finishes[1].steps[0].mix[0].value = -1;  // no parts at all
    const auto all = job::overview({scene}, library(), {}, appearance::two_flux_solver());
    REQUIRE(all.boards.size() == 2);
    CHECK_FALSE(all.boards[0].fault);
    CHECK(all.boards[0].seen.stages.back().colors[0].spread_de00 > 0);
    REQUIRE(all.boards[1].fault);
    CHECK(report::remarks(all.boards[1]).rfind("not worked out: ", 0) == 0);
    const auto page = report::overview_page(all);
    CHECK((page.groups[0].boards[0].finished && !page.groups[0].boards[1].finished));
}

TEST_CASE("boards are grouped by what they have in common, and looks that differ are told") {
    const auto one = overview_scene("one", shellac_alone),
               two = overview_scene("two", ironed_first, "[look]\nlights = [\"A\"]\n");
    const auto& solver = appearance::two_flux_solver();
    const auto woods = job::overview({one, two}, library(), {"ash", "walnut"}, solver);
    const auto by_finish = report::grouped(woods);
    REQUIRE(by_finish.size() == 2);
    CHECK((by_finish[0].by_wood && by_finish[0].heading == "one: shellac" && by_finish[0].boards.size() == 2));
    CHECK(report::overview_title(woods) == "2 finishes on 2 woods of 2 scenes");
    REQUIRE_FALSE(woods.warnings.empty());
    CHECK(woods.warnings.back().id == "overview-look");
    CHECK(woods.boards.back().finished().colors[0].light == "D65");
    const auto on_one = report::grouped(job::overview({one, two}, library(), {"walnut"}, solver));
    REQUIRE(on_one.size() == 1);
    CHECK((on_one[0].boards.size() == 2 && on_one[0].heading.find("alnut") != std::string::npos));
    CHECK(report::grouped(job::overview({one, two}, library(), {}, solver)).size() == 2);
}

TEST_CASE("an overview refuses what is no wood, what is no finish and more boards than a page holds") {
    const auto scene = overview_scene("bench", shellac_alone);
    CHECK(refusal_of({scene}, {"hard-mapel"}).find("material-unknown") != std::string::npos);
    CHECK(refusal_of({scene}, {"water"}).find("material-kind") != std::string::npos);
    auto none = scene;
    none.finishes.clear();
    CHECK(refusal_of({none}, {}).find("finish-empty") != std::string::npos);
    auto many = scene;
    many.finishes.assign(job::most_overview_boards + 1, scene.finishes[0]);
    CHECK(refusal_of({many}, {}).find("overview-too-many") != std::string::npos);
    CHECK_THROWS_AS(job::overview({}, library(), {}, appearance::two_flux_solver()), std::invalid_argument);
}
