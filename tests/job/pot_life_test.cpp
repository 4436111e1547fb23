// What is mixed keeps for hours: when to mix, and what the labels say of it.

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "foretone/job/board_code.hpp"
#include "foretone/job/plan.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/plan_labels.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/schedule/pot_life.hpp"
#include "support/demo.hpp"
#include "support/folder.hpp"

namespace foretone::job {
namespace {

scene::Scene with_can(const std::string& can, const std::string& use = "house", int coats = 2) {
    return scene::read_scene_text(
        "format = 1\ntitle = \"Bar\"\n[wood]\nuse = \"ash\"\n[material.house]\nkind = "
        "\"film\"\nlike = \"two-component-urethane\"\n" +
            can + "\n[[finish]]\nname = \"two parts\"\n[[finish.step]]\nuse = \"" + use +
            "\"\nmethod = \"spray\"\ncoats = " + std::to_string(coats) + "\n",
        "bar.toml", ".", test::library());
}

std::string notes_of(const scene::Scene& s) {
    PlanRequest r;
    r.area_m2 = 2;
    std::string out;
    for (const auto& n : plan(s, r).notes) out += n + "\n";
    return out;
}

bool has_text(const std::string& text, const std::string& due) { return text.find(due) != std::string::npos; }

std::size_t count_of(const std::string& text, const std::string& word) {
    std::size_t n = 0;
    for (auto at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) ++n;
    return n;
}

}  // namespace

TEST_CASE(
    "what the scene says of a can takes the place of what a file says, whole; two figures in one table are refused") {
    const test::Folder f("cans");
    const std::string house = "[material.house]\nkind = \"film\"\nlike = \"two-component-urethane\"\n";
    f.write("own.toml", "format = 1\n" + house + "pot_life_hours = 4\nvoc_g_per_l = 500\n");
    const auto cans = [&](const std::string& own) {
        const auto path = f.write("bar.toml", "format = 1\nmaterials = [\"own.toml\"]\n[wood]\nuse = \"ash\"\n" + own +
                                                  "[[finish]]\nname = \"f\"\n[[finish.step]]\nuse = \"house\"\n");
        return scene::read_scene(path, test::library()).cans.at("house");
    };
    CHECK(cans("").pot_life_h == 4);
    CHECK(cans("").voc_g_per_l == 500);
    const auto own = cans(house + "pot_life_hours = 0.5\n");
    CHECK(own.pot_life_h == 0.5);
    CHECK_FALSE(own.voc_g_per_l);
    CHECK_THROWS_AS(cans(house + "voc_g_per_l = 500\nvoc_lb_per_gal = 4\n"), scene::InputError);
}

TEST_CASE("coats further apart than the pot life are mixed fresh, each its share") {
    const auto s = with_can("pot_life_hours = 0.1");
    PlanRequest r;
    r.area_m2 = 2;
    const auto p = plan(s, r);
    REQUIRE(p.timeline.coats.size() == 2);
    REQUIRE(p.timeline.coats[1].at_h > 0.1);
    CHECK(p.steps[0].pot_life_h == 0.1);
    CHECK(has_text(notes_of(s), "keeps 0.1 h, as its can says"));
    CHECK(has_text(notes_of(s), "mix each coat's share fresh"));
    CHECK(has_text(report::plan_json(p), "\"pot_life_h\": 0.1"));
}

TEST_CASE("a pot life halves with each 10 C more, in notes, JSON and on the jar; the can's own hours stay") {
    // Common practice: each 10 C warmer halves it, from what the can says of 20 C.
    const auto s = with_can("pot_life_hours = 4");
    for (const auto& [celsius, hours] : {std::pair{20.0, 4.0}, {30.0, 2.0}, {10.0, 8.0}, {25.0, 4 / std::sqrt(2.0)}}) {
        PlanRequest r;
        r.air.celsius = celsius;
        const auto p = plan(s, r);
        CHECK(p.steps[0].pot_life_h == 4);
        REQUIRE(p.steps[0].pot_life_here_h);
        CHECK(*p.steps[0].pot_life_here_h == Approx(hours).epsilon(1e-12));
        CHECK(has_text(report::plan_json(p), "\"pot_life_here_h\""));
    }
    CHECK(schedule::pot_life_h(4, {20, 90}) == 4);  // damp air is another matter
    CHECK_THROWS_AS(schedule::pot_life_h(4, {60, 50}), schedule::Fault);
    PlanRequest warm;
    warm.air.celsius = 30;
    warm.units = schedule::UnitSystem::us;
    const auto notes = plan(s, warm).notes;
    CHECK(std::any_of(notes.begin(), notes.end(), [](const auto& n) {
        return has_text(n, "keeps about 2 h at 86 °F: its can's 4 h") && has_text(n, "common practice");
    }));
}

TEST_CASE("coats within the pot life, or one coat, are mixed at once") {
    CHECK_FALSE(has_text(notes_of(with_can("pot_life_hours = 900")), "fresh"));
    CHECK_FALSE(has_text(notes_of(with_can("pot_life_hours = 0.1", "house", 1)), "fresh"));
}

TEST_CASE("what hardens by a second part and says no pot life is asked for it; what does not is not") {
    CHECK(has_text(notes_of(with_can("")), "its pot life stands on the can"));
    CHECK_FALSE(has_text(notes_of(with_can("", "oil-varnish")), "pot life"));
}

TEST_CASE("a pot life is a number of hours") {
    try {
        with_can("pot_life_hours = -1");
        FAIL("was read");
    } catch (const scene::InputError& e) {
        CHECK(e.problems.at(0).id == "value-range");
        CHECK(e.problems.at(0).place.line == 8);
    }
}

TEST_CASE("what evaporates is summed where cans say their VOC, and named where they do not") {
    PlanRequest r;
    r.area_m2 = 2;
    const auto p = plan(with_can("voc_g_per_l = 400"), r);
    REQUIRE(p.purchases.size() == 1);
    CHECK(p.can_voc_g == Approx(p.purchases[0].amount * 0.4));
    CHECK(has_text(report::solvent_text(p), "by the cans' labels; local rules say how much may"));
    // 3.3 lb/gal = 3.3 x 119.826 g/L (NIST SP 811)
    const auto us = plan(with_can("voc_lb_per_gal = 3.3"), r);
    CHECK(us.can_voc_g == Approx(us.purchases[0].amount * 3.3 * 119.8264 / 1000).epsilon(1e-6));
    CHECK(report::solvent_text(plan(with_can(""), r)).empty());
    const auto ladder =
        plan(scene::read_scene(std::string(FORETONE_SCENES) + "/stool-maple.toml", test::library()), [] {
            PlanRequest dyed;
            dyed.finish = 2;
            return dyed;
        }());
    REQUIRE(ladder.solvent_g > 0);
    CHECK(has_text(report::solvent_text(ladder), "of alcohol and thinners evaporate, beside"));
    CHECK_THROWS_AS(with_can("voc_g_per_l = 400\nvoc_lb_per_gal = 3"), scene::InputError);
}

TEST_CASE("a sheet of stickers holds a jar for each mix and boards' backs to its end, each with the code") {
    const auto s = scene::read_scene(std::string(FORETONE_SCENES) + "/stool-maple.toml", test::library());
    for (std::size_t i = 0; i < s.finishes.size(); ++i) {
        PlanRequest r;
        r.finish = i;
        const auto p = plan(s, r);
        const auto mixed = static_cast<std::size_t>(std::count_if(
            p.steps.begin(), p.steps.end(), [](const auto& step) { return step.pot.measures.size() > 1; }));
        for (const auto& [paper, room] : {std::pair{layout::Paper::a4, 14}, std::pair{layout::Paper::letter, 10}}) {
            const auto html = report::plan_labels(p, paper);
            CHECK(count_of(html, "class=\"s\"") == static_cast<std::size_t>(room));
            CHECK(count_of(html, board_code(s.finishes[i])) == static_cast<std::size_t>(room));
            CHECK(count_of(html, "use by") == mixed);
            CHECK(count_of(html, "board ______") == static_cast<std::size_t>(room) - mixed);
            CHECK(has_text(html, paper == layout::Paper::a4 ? "size:A4" : "size:letter"));
        }
    }
}

TEST_CASE("more jars than a sheet has stickers get a further sheet, and a board's label is always among them") {
    const auto s = scene::read_scene(std::string(FORETONE_SCENES) + "/stool-maple.toml", test::library());
    auto p = plan(s, [] {
        PlanRequest r;
        r.finish = 2;
        return r;
    }());
    const auto mixed =
        *std::find_if(p.steps.begin(), p.steps.end(), [](const auto& step) { return step.pot.measures.size() > 1; });
    for (const std::size_t jars : {9u, 10u, 13u, 14u, 15u, 30u}) {
        p.steps.assign(jars, mixed);
        for (const auto& [paper, room] : {std::pair{layout::Paper::a4, 14u}, std::pair{layout::Paper::letter, 10u}}) {
            const auto html = report::plan_labels(p, paper);
            const std::size_t sheets = jars / room + 1;  // one sticker at least is a board's
            CAPTURE(jars, room);
            CHECK(count_of(html, "use by") == jars);
            CHECK(count_of(html, "class=\"p\"") == sheets);
            CHECK(count_of(html, "class=\"s\"") == sheets * room);
            CHECK(has_text(html, "<b>Step " + std::to_string(jars) + "</b>"));
        }
    }
}

TEST_CASE("what stands on a sticker is text, whatever it is called") {
    auto s = with_can("pot_life_hours = 4");
    s.title = "<script>\"x\"</script>";
    s.finishes[0].name = std::string(300, 'e') + "&";
    PlanRequest r;
    const auto html = report::plan_labels(plan(s, r), layout::Paper::a4);
    CHECK_FALSE(has_text(html, "<script>"));
    CHECK_FALSE(has_text(html, std::string(80, 'e')));  // cut, so that it stays on its sticker
}

}  // namespace foretone::job
