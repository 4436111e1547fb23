/// Where every coat went, how even it is, and the ends of the board: as previews, plans and their JSON tell it.

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/job/end_grain.hpp"
#include "foretone/job/plan.hpp"
#include "foretone/report/json.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using Json = nlohmann::json;

namespace {

std::string dyed(const std::string& before, const std::string& step = "", const std::string& wood = "") {
    return "format = 1\n[wood]\nuse = \"pine\"\n" + wood + "[[finish]]\nname = \"x\"\n" + before +
           "[[finish.step]]\nmix = [ { use = \"umber-dye\", parts = 1 }, { use = \"water\", parts = 9 } ]\n"
           "wet_g_per_m2 = 70\n" +
           step + "[[finish.step]]\nuse = \"oil-varnish\"\ncoats = 2\n";
}

const std::string wash_coat = "[[finish.step]]\nuse = \"super-blonde-shellac\"\nmethod = \"brush\"\ncut_lb = 0.5\n";

const job::SeenStage& finished(const job::Preview& p) { return p.finishes.front().stages.back(); }

int books_that_do_not_close(const Json& account) {
    int wrong = 0;
    for (const char* what : {"liquid", "binder", "dye", "pigment"}) {
        const auto& f = account.at(what);
        double sum = 0;
        for (const char* part : {"in", "on", "wiped", "gone"}) {
            sum += f.at(part).get<double>();
            if (!(f.at(part).get<double>() >= 0)) ++wrong;
        }
        if (!(std::abs(sum - f.at("laid").get<double>()) <= closed_form)) ++wrong;
    }
    return wrong;
}

}  // namespace

TEST_CASE("the books of every stage of every demo close in the JSON, and evenness is told") {
    int stages = 0;
    for (const auto* file : demos) {
        INFO(file);
        const auto j = Json::parse(report::preview_json(demo(file)));
        for (const auto& f : j["finishes"])
            for (const auto& s : f["stages"]) {
                CHECK(books_that_do_not_close(s.at("account")) == 0);
                CHECK(s.at("uneven_dE00").get<double>() >= 0);
                if (s["stage"] == "bare") {
                    CHECK(s["account"]["liquid"]["laid"] == 0);
                    CHECK(s["uneven_dE00"].get<double>() < 1e-9);
                }
                ++stages;
            }
    }
    CHECK(stages > 20);
}

TEST_CASE("a coat is laid on as the scene says: 70 g/m2 are 70 g/m2, and bare wood takes them") {
    const auto j = Json::parse(report::preview_json(worked(dyed(""))));
    const auto& a = j["finishes"][0]["stages"][2]["account"];  // bare, damp, dry
    CHECK_THAT(a["liquid"]["laid"].get<double>() + a["dye"]["laid"].get<double>(), Near(70, closed_form));
    CHECK_THAT(a["dye"]["in"].get<double>(), Near(a["dye"]["laid"].get<double>(), closed_form));
}

TEST_CASE("a wash coat makes the dyed board paler and more even, and a plan tells what is wiped off") {
    const auto bare = worked(dyed("")), washed = worked(dyed(wash_coat));
    CHECK(finished(washed).colors[0].lab.l > finished(bare).colors[0].lab.l + 2);
    CHECK(finished(washed).uneven_de00 < 0.8 * finished(bare).uneven_de00);
    const auto s = scene::read_scene_text(dyed(wash_coat), "test.toml", FORETONE_SCENES, library());
    const auto p = job::plan(s, {});
    REQUIRE(p.steps.size() == 3);
    REQUIRE(p.steps[2].accounts.size() == 2);  // two coats of varnish
    CHECK(p.steps[1].accounts[0].dye.wiped > p.steps[1].accounts[0].dye.in);
    const auto j = Json::parse(report::plan_json(p));
    for (const auto& step : j["steps"])
        for (const auto& a : step.at("accounts")) CHECK(books_that_do_not_close(a) == 0);
}

TEST_CASE("paper, popped grain and flooding are read from the scene and change the board") {
    const auto usual = finished(worked(dyed(""))).colors[0].lab;
    const auto with = [&](const std::string& step, const std::string& wood = "") {
        return finished(worked(dyed("", step, wood))).colors[0].lab.l;
    };
    CHECK(with("flood_minutes = 5\n") < usual.l);
    CHECK(with("water_pop = true\n") < usual.l);
    CHECK(with("sand = 400\n") > usual.l);
    CHECK(with("", "grit = 400\n") > usual.l);
    CHECK_THAT(with("sand = 220\n", "grit = 400\n"), Near(usual.l, closed_form));  // sanded again
}

TEST_CASE("a plan says what is done to the bare wood, and how long a flooded coat stands") {
    const auto s = scene::read_scene_text(dyed("", "sand = 180\nwater_pop = true\nflood_minutes = 4\n"), "test.toml",
                                          FORETONE_SCENES, library());
    const auto p = job::plan(s, {});
    CHECK(p.timeline.coats[0].before.find("sand to 180") == 0);
    CHECK(p.timeline.coats[0].before.find("grain stands up") != std::string::npos);
    CHECK(p.timeline.coats[0].wipe_min == 4);
}

TEST_CASE("the ends of a board drink more: darker on request, and a seal brings them nearer the face") {
    const auto ends = [](const std::string& text) {
        auto p = worked(text);
        job::see_end_grain(p, library(), appearance::two_flux_solver());
        const auto& f = p.finishes.front();
        REQUIRE(f.end_grain);
        CHECK(Json::parse(report::preview_json(p))["finishes"][0]["end_grain"]["colors"].size() == 1);
        CHECK(f.end_grain->colors[0].lab.l < f.stages.back().colors[0].lab.l);
        return color::delta_e_00(f.end_grain->colors[0].lab, f.stages.back().colors[0].lab);
    };
    CHECK(ends(dyed(wash_coat)) < 0.7 * ends(dyed("")));
    CHECK_FALSE(Json::parse(report::preview_json(worked(dyed(""))))["finishes"][0].contains("end_grain"));
}
