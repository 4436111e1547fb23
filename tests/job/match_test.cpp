/// match and coats on scenes: results, targets and every refusal.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/job/coats.hpp"
#include "foretone/report/json.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string head = "format = 1\n[look]\nlights = [\"D65\", \"A\"]\n[wood]\nuse = \"hard-maple\"\n";
const std::string oil_finish = "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\n";
const std::string topcoat = "[search.topcoat]\nuse = [\"waterborne-acrylic\"]\ncoats = 2\n";
const std::string dye =
    "[search.dye]\nuse = [\"honey-dye\", \"umber-dye\"]\nat_once = 2\nmost_parts = 2\nwater = { from = 10, to = 100, "
    "step = 10 "
    "}\n";

void serial(std::size_t n, const std::function<void(std::size_t)>& job) {
    for (std::size_t i = 0; i < n; ++i) job(i);
}

job::Match match_of(const std::string& text) {
    const auto s = scene::read_scene_text(text, "test.toml", FORETONE_SCENES, library());
    const auto solver = appearance::two_flux_solver();
    const job::Search search(s, library(), solver);
    search::Best best(job::Search::keep);
    const auto ways = search.engine().examine(0, search.space().ways.size(), best, [] { return true; });
    auto out = search.conclude(best, ways, serial);
    CHECK(nlohmann::json::parse(report::match_json(s, out)).at("candidates").size() == out.candidates.size());
    return out;
}

std::vector<scene::Problem> problems(const std::string& text) {
    try {
        match_of(text);
    } catch (const scene::InputError& e) {
        return e.problems;
    }
    return {};
}

}  // namespace

TEST_CASE("a finish of the scene that lies in the space is found, and is first") {
    const auto m = match_of(head +
                            "[[finish]]\nname = \"t\"\n[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 2 }, { "
                            "use = \"umber-dye\", parts = 1 "
                            "}, "
                            "{ use = \"water\", parts = 60 } ]\nwet_g_per_m2 = 70\n[[finish.step]]\nuse = "
                            "\"waterborne-acrylic\"\ncoats = 2\n"
                            "[target]\nfinish = \"t\"\n[search]\n" +
                            dye + topcoat);
    REQUIRE_FALSE(m.candidates.empty());
    CHECK(m.candidates.front().line == "honey-dye 2 + umber-dye 1 + water 60, 70 g/m2; waterborne-acrylic ×2");
    CHECK_THAT(m.candidates.front().worst, Near(0, closed_form));
    CHECK_THAT(m.candidates.front().angular_worst, Near(0, closed_form));
    CHECK(m.candidates.front().angular_place == 1);
    CHECK(m.examined == m.recipes);
    CHECK(m.not_examined.empty());
    CHECK(m.unreachable.empty());
    CHECK(m.candidates.front().special_index.size() == 2);
}

TEST_CASE("what was not examined is said with its share and where it begins") {
    const auto s = scene::read_scene_text(
        head + oil_finish + "[target]\nfinish = \"x\"\n[search]\n" + dye + topcoat + "sheen_gu60 = [20, 40]\n",
        "t.toml", ".", library());
    const auto solver = appearance::two_flux_solver();
    const job::Search search(s, library(), solver);
    search::Best best(job::Search::keep);
    search.engine().examine(0, best);
    const auto m = search.conclude(best, 1, serial);
    CHECK(m.examined * 2 == m.recipes);
    CHECK(m.not_examined.find("(50 %)") != std::string::npos);
    CHECK(m.not_examined.find("waterborne-acrylic ×2, 40 GU") != std::string::npos);
}

TEST_CASE("a target lighter than the wood is called unreachable, and why") {
    const auto m =
        match_of(head + "[target]\nlab = [95, 0, 5]\nlight = \"D50\"\nobserver = \"10deg\"\n[search]\n" + topcoat);
    CHECK(m.unreachable.find("the wood itself is") == 0);
    CHECK(m.unreachable.find("(D50, dE00") != std::string::npos);
    REQUIRE(m.target.lights == std::vector<std::string>{"D50"});
    CHECK(m.candidates.front().special_index.empty());
    CHECK(m.warnings.back().id == "target-one-light");
}

TEST_CASE("an sRGB target is judged under D65 and said to be weak") {
    const auto m = match_of(head + "[target]\nsrgb = \"#b5651d\"\n[search]\n" + dye + topcoat);
    CHECK(m.warnings.back().id == "target-weak");
    CHECK(m.target.lights == std::vector<std::string>{"D65"});
    CHECK(m.target.colors.front().screen.hex() == "#b5651d");
}

TEST_CASE("bad search spaces and targets are refused: id, line and what would be right") {
    struct Case {
        std::string text, id;
        std::size_t line;
        std::string says;
    };
    const std::string t = head + "[target]\nsrgb = \"#b5651d\"\n[search]\n";  // [search] is line 8
    const Case cases[] = {
        {head + oil_finish + "[target]\nfinish = \"x\"\n", "search-missing", 1, "[search.topcoat]"},
        {head + oil_finish + "[search]\n" + topcoat, "target-missing", 1, "srgb"},
        {t + dye, "search-topcoat", 8, "use = "},
        {t + "[search.topcoat]\n", "key-missing", 9, "which topcoat"},
        {t + "[search.topcoat]\nuse = []\n", "value-empty", 10, "at least one topcoat"},
        {t + "[search.topcoat]\nuse = [\"honey-dye\"]\n", "material-kind", 10, "a film, oil or wax"},
        {t + "[search.dye]\nuse = [\"hony-dye\"]\nwater = 9\n" + topcoat, "material-unknown", 10, "honey-dye"},
        {t + "[search.dye]\nuse = [\"acid-red-1\"]\nwater = 9\n" + topcoat, "material-kind", 10, "a stock"},
        {t + "[search.dye]\nuse = [\"honey-dye\"]\n" + topcoat, "key-missing", 9, "parts of water"},
        {t + "[search.dye]\nuse = [\"honey-dye\"]\nwater = { from = 40, to = 10 }\n" + topcoat, "range-reversed", 11,
         "from 40 to 10"},
        {t + "[search.dye]\nuse = [\"honey-dye\"]\nwater = { from = 40 }\n" + topcoat, "key-missing", 11, "lacks to"},
        {t + "[search.dye]\nuse = [\"honey-dye\"]\nwater = 1.5\n" + topcoat, "value-whole", 11, "whole"},
        {t + "[search.dye]\nuse = [\"honey-dye\"]\nwater = []\n" + topcoat, "value-empty", 11, "{ from"},
        {t + "[search.topcoat]\nuse = [\"oil-varnish\"]\ncoats = { from = 3, to = 1 }\n", "range-reversed", 11,
         "smaller number"},
        {t + "[search.topcoat]\nuse = [\"oil-varnish\"]\ncoats = { from = 1, to = 30, step = 0.001 }\n", "range-steps",
         11, "1000"},
        {t + "[search.topcoat]\nuse = [\"oil-varnish\"]\nalways = true\n", "key-unknown", 11, "always"},
        {t + "[search.topcoat]\nuse = [\"waterborne-acrylic\"]\ntint = [\"solvent-red-24\"]\n", "key-missing", 9,
         "tint_percent"},
        {t + "[search.sealer]\nuse = [\"orange-shellac\"]\nalways = 1\n" + topcoat, "value-type", 11, "true or false"},
        {t + "most_steps = 9\n" + topcoat, "value-range", 9, "1 to 7"},
        {t + "most_steps = 1\n[search.sealer]\nuse = [\"orange-shellac\"]\nalways = true\n" + topcoat, "search-space",
         8, "1 steps"},
        {head + "[target]\nlab = [50, 10, 30]\nobserver = \"2deg\"\n[search]\n" + topcoat, "key-missing", 6,
         "its light"},
        {head + "[target]\nsrgb = \"brown\"\n[search]\n" + topcoat, "value-srgb", 7, "#b5651d"},
        {head + "[target]\nsrgb = \"#b5651d\"\nlight = \"A\"\n[search]\n" + topcoat, "key-conflict", 8,
         "goes with lab"},
        {head + "[target]\nsrgb = \"#b5651d\"\nlab = [50, 10, 30]\n[search]\n" + topcoat, "key-conflict", 6,
         "exactly one way"},
    };
    for (const auto& c : cases) {
        INFO(c.text);
        const auto found = problems(c.text);
        REQUIRE_FALSE(found.empty());
        CHECK(found.front().id == c.id);
        CHECK(found.front().place.line == c.line);
        CHECK_THAT(found.front().text, Catch::Contains(c.says));
    }
}

TEST_CASE("coats of one step: each is the stage that a preview of so many coats ends with") {
    const auto s =
        scene::read_scene_text(head + oil_finish + "[target]\nlab = [60, 12, 40]\nlight = \"A\"\nobserver = \"2deg\"\n",
                               "t.toml", ".", library());
    const auto solver = appearance::two_flux_solver();
    const auto c = job::coats(s, library(), solver, {"x", 1, 4});
    REQUIRE(c.counts.size() == 5);
    CHECK(c.lights == std::vector<std::string>{"A"});
    const auto view =
        job::coats(scene::read_scene_text(head + oil_finish, "t.toml", ".", library()), library(), solver, {"", 0, 4});
    CHECK_FALSE(view.target);
    CHECK(view.counts[2].to_target.empty());
    const auto preview = worked(head + oil_finish);
    CHECK(view.counts[2].colors[0].lab == preview.finishes[0].stages.back().colors[0].lab);
    CHECK(view.counts[0].colors[1].lab == preview.finishes[0].stages.front().colors[1].lab);
    CHECK(view.counts[1].added.size() == 2);
    const auto j = nlohmann::json::parse(report::coats_json(s, c));
    CHECK(j.at("coats").size() == 5);
    CHECK(j.at("nearest") == *c.verdict.nearest);
    CHECK_FALSE(nlohmann::json::parse(report::coats_json(s, view)).contains("nearest"));
}

TEST_CASE("an unknown finish or step of coats is refused with the valid ones") {
    const auto s = scene::read_scene_text(head + oil_finish, "t.toml", ".", library());
    const auto solver = appearance::two_flux_solver();
    CHECK_THROWS_WITH(job::coats(s, library(), solver, {"y", 0, 4}),
                      Catch::Contains("no finish \"y\"") && Catch::Contains("[finish-unknown]"));
    CHECK_THROWS_WITH(job::coats(s, library(), solver, {"x", 3, 4}),
                      Catch::Contains("steps 1 to 1") && Catch::Contains("[step-unknown]"));
}

TEST_CASE("recipes carry what the order rules say of them, and none that is shown fails") {
    const auto m = match_of(
        head + oil_finish +
        "[target]\nfinish = \"x\"\n[search]\nmost_steps = 3\n[search.dye]\nuse = [\"russet-dye\"]\nmost_parts = 1\n" +
        "water = { from = 100, to = 200, step = 50 }\n[search.sealer]\nuse = [\"orange-shellac\", "
        "\"super-blonde-shellac\"]\ncoats = 1\n" +
        "method = \"brush\"\n" + topcoat);
    CHECK(m.left_out.empty());
    bool bleeds = false;
    for (const auto& c : m.candidates) {
        INFO(c.line);
        CHECK_FALSE(schedule::fails(c.findings));
        for (const auto& f : c.findings) bleeds = bleeds || f.id == "bleeds";
    }
    CHECK(bleeds);  // russet holds a dye that the shellac's alcohol dissolves
}
