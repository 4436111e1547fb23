#include <catch2/catch.hpp>

#include <algorithm>
#include <nlohmann/json.hpp>

#include "foretone/base/text.hpp"
#include "foretone/job/plan_rounding.hpp"
#include "foretone/report/plan_card.hpp"
#include "foretone/report/plan_words.hpp"
#include "foretone/report/json.hpp"
#include "foretone/color/words.hpp"
#include "foretone/job/pot_color.hpp"
#include "foretone/schedule/shop_arithmetic.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

scene::Scene read(const std::string& name) {
    return scene::read_scene(std::string(FORETONE_SCENES) + "/" + name, library());
}

job::PlanRequest over(double m2) {
    job::PlanRequest r;
    r.area_m2 = m2;
    return r;
}

std::string refused(const scene::Scene& s, const job::PlanRequest& r) {
    try {
        job::plan(s, r);
    } catch (const scene::InputError& e) {
        return e.what();
    }
    return "";
}

}  // namespace

TEST_CASE("the ready waxed shellac on pine: cut, coats, amounts, warning, cost") {
    const auto p = job::plan(read("wash-coat-pine.toml"), over(2.5));
    REQUIRE(p.steps.size() == 2);
    CHECK(p.steps[0].action.find("1-lb cut (from a ready 3-lb cut)") != std::string::npos);
    // 75 um x 2.5 m2, 10 % lost on the brush: 208.3 mL of 1-lb cut; by density 1.15 one part of 3-lb takes 1.524 of
    // alcohol.
    CHECK_THAT(p.steps[0].ml, Near(75 * 2.5 / 0.9, closed_form));
    REQUIRE(p.steps[0].pot.measures.size() == 2);
    CHECK_THAT(p.steps[0].pot.measures[1].exact / p.steps[0].pot.measures[0].exact,
               Near(schedule::thinning_parts(3, 1, schedule::gal_per_lb(1.15)), closed_form));
    // Dry build of 75 um of a 1-lb cut: 9.436 % solids by shellac_pound_cut.csv.
    CHECK_THAT(p.steps[0].dry_um, Near(75 * 0.09436, 75 * 5e-6));
    CHECK(p.steps[1].coats == 3);
    CHECK_THAT(p.steps[1].dry_um, Near(schedule::dry_um(90, 32), closed_form));  // the library's volume solids
    REQUIRE(p.findings.size() == 1);
    CHECK(p.findings[0].id == "wax-below");
    CHECK_THAT(p.cost, Near(14.5 + 8 + 32, closed_form));  // one pack of each, by the scene's prices
    CHECK(p.timeline.coats.size() == 4);
    CHECK(p.label.size() == 6);
}

TEST_CASE("a finish that fails is refused at its step, with its mends") {
    const auto s = read("linseed-then-waterborne.toml");
    const auto text = refused(s, over(1));
    CHECK(text.find("linseed-then-waterborne.toml:19:3: ") != std::string::npos);
    CHECK(text.find("Mend: wait until") != std::string::npos);
    CHECK(text.find("Blonde shellac") != std::string::npos);
    CHECK(text.find("[uncured-below]") != std::string::npos);
    auto r = over(1);
    r.finish = 1;
    CHECK_THAT(job::plan(s, r).timeline.coats[1].at_h, Near(21 * 24, identity));
}

TEST_CASE("a price by the other measure, or of what is not used, is said") {
    auto s = read("wash-coat-pine.toml");
    s.prices.packs["alcohol"] = {0, 500, 4};
    s.prices.packs["tung"] = {500, 0, 9};
    const auto p = job::plan(s, over(1));
    REQUIRE(p.notes.size() == 2);
    CHECK(p.notes[0].find("measured the other way") != std::string::npos);
    CHECK(p.notes[1].find("'tung'") != std::string::npos);
    s.finishes[0].steps[0].ready_cut_lb.reset();  // from flakes
    const auto flakes = job::plan(s, over(1));
    CHECK(std::count_if(flakes.notes.begin(), flakes.notes.end(), [](const auto& n) {
              return n.find("the day before: dissolve the flakes") != std::string::npos;
          }) == 1);
}

TEST_CASE("a plan tells what comes ahead: bleach neutralized and dried, filler hard, flakes and grain the day before") {
    // common practice
    const auto planned = [](const std::string& steps) {
        return job::plan(
            scene::read_scene_text("format = 1\n[wood]\nuse = \"white-oak\"\n[[finish]]\nname = \"f\"\n" + steps +
                                       "[[finish.step]]\nuse = \"waterborne-acrylic\"\nmethod = \"spray\"\n",
                                   "t.toml", ".", library()),
            over(1));
    };
    const auto p = planned(
        "[[finish.step]]\nuse = \"two-part-bleach\"\n[[finish.step]]\nuse = \"walnut-filler\"\n[[finish.step]]\nuse = "
        "\"orange-shellac\"\ncut_lb = 1.5\nmethod = \"spray\"\n");
    const auto& coats = p.timeline.coats;
    REQUIRE(coats.size() == 4);
    CHECK(coats[1].before.find("neutralize with vinegar and water, rinse twice; let the wood dry") == 0);
    CHECK(coats[1].at_h - coats[0].at_h >= 24);
    CHECK(coats[1].wipe_min == 10);
    CHECK(coats[2].before.find("when the filler is hard, sand its haze off along the grain") == 0);
    CHECK(coats[2].at_h - coats[1].at_h >= 24);
    const auto says = [](const job::Plan& plan, const char* words) {
        return std::count_if(plan.notes.begin(), plan.notes.end(),
                             [&](const auto& n) { return n.find(words) != std::string::npos; });
    };
    CHECK(says(p, "take it off across the grain with coarse cloth") == 1);
    CHECK(says(p, "the day before: dissolve the flakes of Orange shellac") == 1);
    const auto dyed =
        planned("[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 4 }, { use = \"water\", parts = 45 } ]\n");
    CHECK(says(dyed, "the day before: wet the wood, let it dry and sand the raised grain back") == 1);
}

TEST_CASE("a moment is a date and a clock, over month ends and leap days, or a day counted") {
    CHECK(job::moment("2028-02-28 22:30", 3) == "2028-02-29 01:30");
    CHECK(job::moment("2026-12-31T08:00", 24 * 1.5) == "2027-01-01 20:00");
    CHECK(job::moment("", 50.25) == "day 3, +02:15");
    for (const char* bad : {"tomorrow", "2026-02-30 08:00", "2026-03-02 24:00", "2026-03-02", "2026-03-02 08:00:00",
                            "20x6-03-02 08:00"}) {
        INFO(bad);
        CHECK_THROWS_AS(job::moment(bad, 0), scene::InputError);
    }
}

TEST_CASE("the card is one page of escaped text with nothing from outside") {
    auto s = read("wash-coat-pine.toml");
    s.title = "<script>alert('x')</script> & \"co\"";
    s.finishes[0].name = "<b>bold</b>";
    s.prices.currency = "<i>";
    s.materials["alcohol"].name = "<img src=x>";
    const auto p = job::plan(s, over(1));
    const std::string card = report::plan_card(p);
    for (const char* raw : {"<script", "<b>", "<i>", "<img", "http:", "https:", "url("}) {
        INFO(raw);
        CHECK(card.find(raw) == std::string::npos);
    }
    CHECK(card.find("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;co&quot;") != std::string::npos);
    for (const char* due : {"Mix", "Do", "Buy", "Mind", "Cautions", "EN 71-3", "conflicting", "30 GU at 60°",
                            "licensed practice", "board: ____"})
        CHECK(card.find(due) != std::string::npos);
}

TEST_CASE("a plan's JSON holds steps, times, purchases, findings and cautions") {
    auto r = over(2.5);
    r.start = "2026-03-02 08:00";
    const auto j = nlohmann::json::parse(report::plan_json(job::plan(read("wash-coat-pine.toml"), r)));
    CHECK(j.at("steps").size() == 2);
    CHECK(j.at("timeline").at(0).at("when") == "2026-03-02 08:00");
    CHECK(j.at("timeline").at(1).contains("recoat_latest_h"));
    CHECK(j.at("buy").size() == 3);
    CHECK(j.at("cost").at("currency") == "EUR");
    CHECK(j.at("findings").at(0).at("sure") == "conflicting");
    CHECK(j.at("cautions").back().at("id") == "local-codes");
    CHECK(j.at("elapsed_days").get<double>() < 1);
}

TEST_CASE("every demo's finishes plan, but for the one that is to be refused") {
    int planned = 0, refusals = 0;
    for (const char* name :
         {"stool-maple.toml", "shelf-pine.toml", "desk-walnut.toml", "library-oak.toml", "wash-coat-pine.toml",
          "dye-under-waterborne.toml", "waxed-under-polyurethane.toml", "linseed-then-waterborne.toml"}) {
        const auto s = read(name);
        for (std::size_t f = 0; f < s.finishes.size(); ++f) {
            auto r = over(2);
            r.finish = f;
            if (refused(s, r).empty())
                ++planned;
            else
                ++refusals;
        }
    }
    CHECK(planned == 20);
    CHECK(refusals == 1);
}

TEST_CASE("prices and waits that are no such thing are refused with their place") {
    const auto fault = [](const std::string& text) {
        try {
            scene::read_scene_text(
                "format = 1\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = "
                "\"orange-shellac\"\n" +
                    text,
                "t.toml", ".", library());
        } catch (const scene::InputError& e) {
            return std::string(e.what());
        }
        return std::string();
    };
    CHECK(fault("cut_lb = 1\nready_cut_lb = 3\nafter_days = 2\nscuff = true\n").empty());
    CHECK(fault("ready_cut_lb = 3\n").find("t.toml:8:1: ready_cut_lb needs cut_lb") == 0);
    CHECK(fault("cut_lb = 4\nready_cut_lb = 3\n").find("[value-range]") != std::string::npos);
    CHECK(fault("after_days = -1\n").find("[value-range]") != std::string::npos);
    CHECK(fault("scuff = 1\n").find("[value-type]") != std::string::npos);
    CHECK(fault("[prices]\nalcohol = 3\n").find("[value-type]") != std::string::npos);
    CHECK(fault("[prices]\nalcohol = { ml = 3, g = 3, price = 1 }\n").find("[key-conflict]") != std::string::npos);
    CHECK(fault("[prices]\nalcohol = { ml = 3 }\n").find("[key-missing]") != std::string::npos);
    CHECK(fault("[prices]\nalcohol = { ml = 3, price = -1 }\n").find("[value-range]") != std::string::npos);
}

namespace {

// Honey and russet dye 4 : 1, thinned 1 : 9: little of it on a small panel.
scene::Scene panel(const std::string& steps) {
    return scene::read_scene_text(
        "format = 1\ntitle = \"Panel\"\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = "
        "\"dye\"\n" +
            steps,
        "panel.toml", "", library());
}
const std::string dye_step =
    "[[finish.step]]\nmix = [ { use = \"honey-dye\", parts = 4 }, { use = \"russet-dye\", parts = 1 }, { use = "
    "\"water\", parts = 45 } ]\nwet_g_per_m2 = 65\n[[finish.step]]\nuse = \"waterborne-acrylic\"\ncoats = 2\n";

job::Plan plan_with_rounding(const scene::Scene& s, const job::PlanRequest& r) {
    auto p = job::plan(s, r);
    job::work_out_rounding(p, s, library(), appearance::two_flux_solver());
    return p;
}

}  // namespace

TEST_CASE("on a small panel the rounding of a dye is told, and a batch that keeps its color is offered") {
    const auto s = panel(dye_step);
    for (const double m2 : {0.05, 0.1, 0.2}) {
        const auto p = plan_with_rounding(s, over(m2));
        const auto& step = p.steps[0];
        REQUIRE(step.rounding);
        REQUIRE(step.rounding->de00);
        INFO(m2 << " m2: ΔE00 " << *step.rounding->de00);
        CHECK(*step.rounding->de00 > color::visible_de00);
        REQUIRE(step.rounding->keeps);
        CHECK(step.rounding->keeps->exact_ml > step.ml);
        // What is offered keeps its word, by the same measure that `mix pot` shows.
        const auto again = job::rounding_de00(s, 0, 0, *step.rounding->keeps, library(), appearance::two_flux_solver());
        for (const double de : again) CHECK(de < color::visible_de00);
        // A topcoat of one thing is the same whatever is poured.
        if (p.steps[1].rounding) CHECK_THAT(p.steps[1].rounding->de00.value(), Near(0, closed_form));
    }
}

TEST_CASE("finer tools or a larger area bring the cost of rounding under what is seen") {
    const auto s = panel(dye_step);
    auto fine = over(0.1);
    fine.tools = {0.001, 0.001};
    CHECK(plan_with_rounding(s, fine).steps[0].rounding->de00.value() < color::visible_de00);
    CHECK(plan_with_rounding(s, over(20)).steps[0].rounding->de00.value() < color::visible_de00);
    CHECK_FALSE(plan_with_rounding(s, over(20)).steps[0].rounding->keeps);
}

TEST_CASE("the card and the JSON say what rounding costs") {
    const auto p = plan_with_rounding(panel(dye_step), over(0.05));
    const auto text = report::rounding_text(p.steps[0]);
    CHECK(text.find("keeps the color: honey-dye ") != std::string::npos);
    CHECK(report::plan_card(p).find(base::xml_escaped(text)) != std::string::npos);
    const auto j = nlohmann::json::parse(report::plan_json(p));
    CHECK(j["steps"][0]["rounding"] == text);
    CHECK(j["steps"][0]["rounding_dE00"] == p.steps[0].rounding->de00.value());
    CHECK(j["steps"][0]["batch_that_keeps_color"]["measures"].size() == 3);
    CHECK(report::rounding_text(job::PlanStep{}).empty());
}
