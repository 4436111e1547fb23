/// Boards files: every fault with its place, and fit → scene → preview.

#include <catch2/catch.hpp>

#include "foretone/material/figures.hpp"
#include "foretone/scene/boards.hpp"
#include "foretone/report/json.hpp"
#include "foretone/job/preview.hpp"
#include "support/demo.hpp"
#include "support/folder.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string head =
    "format = 1\nby = \"x\"\n[look]\nlight = \"D65\"\nobserver = \"10deg\"\ngeometry = "
    "\"d/8-included\"\n[readings]\nfile = "
    "\"r.txt\"\n";
const std::string board = "[[board]]\nname = \"A\"\nwood = \"hard-maple\"\n";
const std::string shellac_step = "[[board.step]]\nuse = \"orange-shellac\"\ncoats = 2\nmethod = \"spray\"\n";
const std::string list =
    "light: D65\nobserver: 10deg\ngeometry: d/8-included\nbare\t80\t5\t18\none\t70\t9\t25\ntwo\t64\t10\t28\n";

std::vector<scene::Problem> boards_problems(const std::string& text) {
    const Folder f("boards-faults");
    f.write("r.txt", list);
    const auto path = f.write("b.toml", text);
    try {
        const auto b = scene::read_boards(path, library());
        scene::fit_boards(b);
    } catch (const scene::InputError& e) {
        return e.problems;
    }
    return {};
}

void expect_boards(const std::string& text, const std::string& id, std::size_t line, const std::string& says) {
    INFO(text);
    const auto found = boards_problems(text);
    REQUIRE_FALSE(found.empty());
    bool matched = false;
    for (const auto& p : found) {
        UNSCOPED_INFO(p.place.text() << ": " << p.text << " [" << p.id << "]");
        matched = matched || (p.id == id && p.place.line == line && p.text.find(says) != std::string::npos);
    }
    CHECK(matched);
}

}  // namespace

TEST_CASE("every fault of a boards file is told with its place and what would be right") {
    const std::string readings =
        "reading = [ { name = \"bare\" }, { name = \"one\", step = 1, coat = 1 }, { name = \"two\", step = 1 } ]\n";
    expect_boards("format = 1\n", "key-missing", 1, "[look] is missing");
    expect_boards("format = 1\n", "key-missing", 1, "by = ");
    expect_boards("format = 1\n", "board-missing", 1, "[[board]]");
    expect_boards(head + board + readings + shellac_step + "[names]\nhard-mapel = \"x\"\n", "key-unknown", 18,
                  "hard-maple");
    expect_boards(head + board + readings + shellac_step + "[names]\nhard-maple = \"My Maple\"\n", "value-choice", 18,
                  "a-z, 0-9");
    expect_boards(head + "place_de = -1\n" + board + readings + shellac_step, "value-range", 9, "outside 0 to 20");
    expect_boards(head + board + "reading = [ { name = \"bear\" } ]\n" + shellac_step, "sample-unknown", 12, "bare");
    expect_boards(head + board + "reading = [ { name = \"one\", step = 3 } ]\n" + shellac_step, "reading-state", 12,
                  "has 1 step");
    expect_boards(head + board + "reading = [ { step = 1 } ]\n" + shellac_step, "key-missing", 12, "lab = [L, a, b]");
    expect_boards(head + board + "reading = [ { lab = [120, 0, 0] } ]\n" + shellac_step, "value-range", 12, "0 to 100");
    expect_boards(head + board + shellac_step, "readings-missing", 9, "columns on, step, coat");
    expect_boards(head + "[[board]]\nname = \"A\"\nwood = \"orange-shellac\"\n" + readings + shellac_step,
                  "material-kind", 11, "not a wood");
    expect_boards(head + board + board + readings + shellac_step, "board-twice", 13, "two boards");
    expect_boards(
        "format = 1\nby = \"x\"\n[look]\nlight = \"D65\"\nobserver = \"10deg\"\ngeometry = \"45/0\"\n[readings]\nfile "
        "= "
        "\"r.txt\"\n" +
            board + readings + shellac_step,
        "geometry-contradicts", 0, "45/0");
}

TEST_CASE("steps stand before readings in TOML, and a reading of a coat that is not there is told") {
    const std::string text = head + "[[board]]\nname = \"A\"\nwood = \"hard-maple\"\n" +
                             "reading = [ { name = \"bare\" }, { name = \"one\", step = 1, coat = 3 } ]\n" +
                             shellac_step;
    expect_boards(text, "reading-state", 12, "coats 1 to 2");
}

TEST_CASE("readings that make no fit are an error of the file with the fit's id") {
    expect_boards(head + board + "reading = [ { name = \"bare\" } ]\n" + shellac_step, "fit-too-few", 0, "at least 2");
    expect_boards(
        head + board + "reading = [ { name = \"bare\" }, { lab = [30, 60, -40], step = 1 } ]\n" + shellac_step,
        "fit-residual", 0, "no set of materials");
}

TEST_CASE(
    "the demo's step boards are fitted, drop into a scene, and the preview repeats them within the residual that was "
    "stated") {
    const auto boards = scene::read_boards(FORETONE_SCENES "/boards/maple-plank.toml", library());
    REQUIRE(boards.question.readings.size() == 8);
    const auto fit = scene::fit_boards(boards);
    const auto& result = fit.result();
    CHECK(result.rms_de00 < 1.0);
    CHECK(*result.left_out_rms_de00 < 1.5);
    CHECK(result.changed.size() >= 3);

    const Folder f("boards-fit");
    f.write("fitted.toml", scene::fitted_toml(boards, result));
    const std::string scene_text =
        "format = 1\nmaterials = [\"fitted.toml\"]\n[look]\nlights = [\"D65\"]\nobserver = \"10deg\"\ngeometry = "
        "\"d/8-included\"\n[wood]\nuse = \"plank-maple\"\n"
        "[[finish]]\nname = \"dyed\"\n[[finish.step]]\nmix = [ { use = \"march-honey\", parts = 4 }, { use = "
        "\"water\", parts = "
        "36 } ]\nwet_g_per_m2 = 65\n"
        "[[finish.step]]\nuse = \"march-shellac\"\ncut_lb = 1.5\ncoats = 3\nmethod = \"spray\"\n"
        "[[finish]]\nname = \"clear\"\n[[finish.step]]\nuse = \"march-shellac\"\ncut_lb = 1.5\ncoats = 2\nmethod = "
        "\"spray\"\n";
    const auto scene = scene::read_scene(f.write("scene.toml", scene_text), library());
    CHECK(scene.warnings.empty());
    const auto preview = job::preview(scene, library(), appearance::two_flux_solver());
    double worst = 0, over = 0;
    std::string at;
    for (std::size_t i = 0; i < result.readings.size(); ++i) {
        const auto& asked = boards.question.readings[i];
        const auto& finish = preview.finishes[asked.board];
        for (const auto& s : finish.stages) {
            if (s.stage.after_step != asked.step || s.stage.coat != asked.coat ||
                s.stage.kind == appearance::StageKind::damp)
                continue;
            const double moved = color::delta_e_00(s.colors[0].lab, result.readings[i].predicted);
            if (worse(moved, worst)) worst = moved, at = result.readings[i].name;
            over =
                worst_of(over, color::delta_e_00(s.colors[0].lab, result.readings[i].read) - result.readings[i].de00);
        }
    }
    INFO(at << ": the preview is dE00 " << worst << " from what the fit said");
    CHECK(worst < 0.01);  // six written digits
    CHECK(over < 0.01);
}

TEST_CASE("the demo scene of own materials holds what the demo's fit writes") {
    const auto boards = scene::read_boards(FORETONE_SCENES "/boards/maple-plank.toml", library());
    const auto fit = scene::fit_boards(boards);
    const auto kept = scene::read_scene(FORETONE_SCENES "/stool-own-materials.toml", library());
    CHECK(kept.materials.at("march-shellac").order.redissolved_by.has_value());  // what the bench needs comes along
    const Folder f("own-demo");
    f.write("fitted/maple-plank.toml", scene::fitted_toml(boards, fit.result()));
    std::filesystem::copy_file(FORETONE_SCENES "/stool-own-materials.toml", f / "s.toml");
    auto now = scene::read_scene(f / "s.toml", library());
    REQUIRE(now.materials.size() == kept.materials.size());
    double worst = 0;
    std::string at;
    for (auto [id, m] : kept.materials) {
        const auto a = material::figures(m), b = material::figures(now.materials.at(id));
        REQUIRE(a.size() == b.size());
        for (std::size_t i = 0; i < a.size(); ++i) {
            const auto off = [&](double p, double q) {
                const double d = std::abs(p - q) / std::max(1e-6, std::abs(p));
                if (worse(d, worst)) worst = d, at = id + " " + a[i].key;
            };
            if (a[i].figure)
                off(a[i].figure->value, b[i].figure->value);
            else
                for (std::size_t k = 0; k < spectral::grid_size; ++k)
                    off(a[i].spectrum->values[k], b[i].spectrum->values[k]);
        }
    }
    INFO(at << " is off by " << worst);
    CHECK(worst < 1e-3);  // builds differ in the last digits of a fit
}

TEST_CASE("a scene's file of materials is read with its faults placed in it") {
    const Folder f("own-materials");
    const auto expect_fault = [&](const std::string& file, const std::string& id, const std::string& says) {
        f.write("own.toml", file);
        const auto path = f.write("s.toml",
                                  "format = 1\nmaterials = [\"own.toml\"]\n[wood]\nuse = \"ash\"\n[[finish]]\nname = "
                                  "\"x\"\n[[finish.step]]\nuse = \"thing\"\n");
        try {
            scene::read_scene(path, library());
            FAIL("no fault");
        } catch (const scene::InputError& e) {
            INFO(e.what());
            CHECK(std::any_of(e.problems.begin(), e.problems.end(),
                              [&](const auto& p) { return p.id == id && p.text.find(says) != std::string::npos; }));
        }
    };
    expect_fault("title = \"x\"\n", "key-missing", "format = 1");
    expect_fault("format = 1\n", "key-missing", "[material.NAME]");
    expect_fault("format = 1\n[material.thing]\nkind = \"flim\"\n", "value-choice", "film");
    expect_fault("format = 1\n[wood]\n[material.thing]\nkind = \"film\"\ngardner = 5\nsolids_volume_percent = 40\n",
                 "key-unknown", "a file of materials");
    CHECK_THROWS_AS(
        scene::read_scene(f.write("t.toml", "format = 1\nmaterials = [\"none.toml\"]\n[wood]\nuse = \"ash\"\n"),
                          library()),
        scene::InputError);
}
