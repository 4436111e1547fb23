/// Every fault of a scene: its id, its place, and what the message owes its reader.

#include <catch2/catch.hpp>

#include "support/demo.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

struct Case {
    const char* text;
    const char* id;
    std::size_t line;
    const char* says;  // part of the message
};

std::vector<scene::Problem> problems(const std::string& text) {
    try {
        const auto s = scene::read_scene_text(text, "test.toml", FORETONE_SCENES, library());
        job::preview(s, library(), appearance::two_flux_solver());
    } catch (const scene::InputError& e) {
        return e.problems;
    }
    return {};
}

const std::string good =
    "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";

// A step's own lines come after line 6 of this.
std::string with_step(const std::string& lines) {
    return "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\n" + lines;
}
std::string with_wood(const std::string& lines) {
    return "format = 1\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n[wood]\n" + lines;
}

void expect(const std::string& text, const std::string& id, std::size_t line, const std::string& says) {
    INFO(text);
    const auto found = problems(text);
    REQUIRE_FALSE(found.empty());
    bool matched = false;
    for (const auto& p : found) {
        UNSCOPED_INFO(p.place.text() << ": " << p.text << " [" << p.id << "]");
        matched = matched || (p.id == id && p.place.line == line && p.text.find(says) != std::string::npos);
    }
    CHECK(matched);
}

}  // namespace

TEST_CASE("a good scene has no problem") { CHECK(problems(good).empty()); }

TEST_CASE("unknown keys name the nearest, units those of the same quantity") {
    expect(good + "coat = 2\n", "key-unknown", 8, "Did you mean coats");
    expect(good + "wet_mm = 0.1\n", "unit-unknown", 8, "wet_um, wet_mil or wet_g_per_m2");
    expect(good + "coverage_yd2 = 1\n", "unit-unknown", 8, "coverage_m2_per_l or coverage_ft2_per_gal");
    expect("format = 1\ntitel = \"x\"\n" + good.substr(11), "key-unknown", 2, "title");
    expect(good + "[look]\nlamp = \"D65\"\n", "key-unknown", 9, "lights");
}

TEST_CASE("unknown materials, lights, methods and geometries name the nearest") {
    expect(with_step("use = \"oil-varnsh\"\n"), "material-unknown", 7, "oil-varnish");
    expect(with_step("mix = [ { use = \"hony-dye\", parts = 1 }, { use = \"water\", parts = 9 } ]\n"),
           "material-unknown", 7, "honey-dye");
    expect(with_wood("use = \"hardmaple\"\n"), "material-unknown", 7, "hard-maple");
    expect(with_wood("use = \"water\"\n"), "material-kind", 7, "not a wood");
    expect(good + "[look]\nlights = [\"D66\"]\n", "light-unknown", 9, "D65");
    expect(good + "[look]\ngeometry = \"0/45\"\n", "value-choice", 9, "45/0, d/8-included or d/8-excluded");
    expect(good + "[look]\nobserver = \"2\"\n", "value-choice", 9, "2deg");
    expect(good + "method = \"sprayed\"\n", "value-choice", 8, "spray");
}

TEST_CASE("negative, absurd, non-finite and mistyped numbers are told with their range") {
    expect(good + "wet_um = -5\n", "value-range", 8, "outside 1 to 500 um");
    expect(good + "wet_um = 90000\n", "value-range", 8, "90000");
    expect(good + "wet_um = nan\n", "value-not-finite", 8, "nan");
    expect(good + "wet_um = \"90 um\"\n", "value-unit", 8, "unit is in the key's name");
    expect(good + "coats = 0\n", "value-range", 8, "1 to 30");
    expect(good + "coats = 1.5\n", "value-whole", 8, "whole number");
    expect(good + "sheen_gu60 = 130\n", "value-range", 8, "gloss units");
    expect(good + "cut_lb = 2\n", "cut-without-resin", 6, "shellac");
    expect(good + "wet_um = 90\nwet_mil = 3\n", "key-conflict", 6, "more than once");
}

TEST_CASE("empty finishes, steps and mixes are told") {
    expect("format = 1\n[wood]\nuse = \"hard-maple\"\n", "finish-empty", 1, "no finish");
    expect("format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n", "finish-empty", 4, "no step");
    expect(with_step("coats = 2\n"), "step-empty", 6, "puts nothing on");
    expect(with_step("mix = []\n"), "step-empty", 7, "list of parts");
    expect(with_step("mix = [ { use = \"water\" } ]\n"), "key-missing", 7, "how much");
    expect(with_step("mix = [ { use = \"acid-black-1\", parts = 1 }, { use = \"water\", parts = 9 } ]\n"),
           "mix-powder-by-volume", 7, "g_per_l");
    expect(good + "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n", "finish-twice", 9,
           "two finishes");
}

TEST_CASE("a wood of one's own needs what a reading needs") {
    expect(with_wood("lab = [80, 5, 18]\nlike = \"birch\"\n"), "key-missing", 6, "light");
    expect(with_wood("lab = [80, 5, 18]\nlike = \"birch\"\n"), "key-missing", 6, "geometry");
    expect(with_wood("lab = [80, 500, 18]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"), "value-range",
           7, "[L, a, b]");
    expect(with_wood("lab = [50, -60, -90]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n"),
           "lab-unreachable", 7, "no wood-like");
    expect(with_wood("reflectance = \"none.csv\"\ngeometry = \"45/0\"\n"), "file-missing", 0, "no such file");
    expect(with_wood("use = \"birch\"\nlab = [80, 5, 18]\n"), "key-conflict", 6, "exactly one way");
    CHECK(
        problems(with_wood("lab = [80, 5, 18]\nlight = \"D65\"\nobserver = \"2deg\"\ngeometry = \"45/0\"\n")).empty());
}

TEST_CASE("a material of one's own: percent where a fraction is due, missing color, wrong kind") {
    const std::string own = good + "[material.mine]\n";
    expect(own + "kind = \"film\"\nstay = 70\n", "value-range", 10, "70 % is 0.7");
    expect(own + "kind = \"film\"\ngardner = 19\n", "value-range", 10, "1 to 18");
    expect(own + "kind = \"varnish\"\n", "value-choice", 9, "film");
    expect(own + "gardner = 5\n", "key-missing", 8, "kind is missing");
    expect(own + "kind = \"film\"\nlike = \"hard-maple\"\n", "material-unknown", 10, "oil-varnish");
    expect(own + "kind = \"dye\"\ncarriers = [\"water\"]\n", "key-missing", 8, "molar_absorptivity is missing");
    expect(own + "kind = \"film\"\nn = { value = 1.5, mark = \"guess\" }\n", "value-choice", 10, "published");
    expect(own + "kind = \"treatment\"\ncarrier = \"water\"\nneeds = \"tannin\"\n", "key-missing", 8,
           "half_tannin_percent");
}

TEST_CASE("targets name a finish that exists, or a color with its light") {
    expect(good + "[target]\nfinish = \"y\"\n", "finish-unknown", 9, "x");
    expect(good + "[target]\nlab = [50, 5, 20]\n", "key-missing", 8, "light");
    expect(good + "[target]\n", "key-conflict", 8, "exactly one way");
}

TEST_CASE("faults of one file are told together") {
    const auto found = problems(good + "coat = 2\nwet_um = -1\n[look]\nlights = [\"D66\"]\n");
    CHECK(found.size() == 3);
}

TEST_CASE("broken TOML is told with line and column") {
    expect("format = 1\n[wood\n", "toml-syntax", 2, "");
    expect("format = 1\nformat = 1\n", "toml-syntax", 2, "");
}

TEST_CASE("hostile names do no harm and are cut short in the message") {
    const std::string name(5000, 'z');
    const auto found = problems(with_step("use = \"" + name + "\"\n"));
    REQUIRE(found.size() == 1);
    CHECK(found[0].text.size() < 300);
}
