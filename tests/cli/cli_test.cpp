#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string scenes_folder = FORETONE_SCENES;
const char* const demos[] = {"stool-maple", "shelf-pine", "desk-walnut", "library-oak"};

const std::string small_scene =
    "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";

}  // namespace

TEST_CASE("every demo previews: table, pictures, and it says what to open") {
    fresh_folder();
    for (const std::string demo : demos) {
        INFO(demo);
        const auto r = run("preview " + scenes_folder + "/" + demo + ".toml");
        CHECK(r.status == 0);
        CHECK(r.out.find("finished") != std::string::npos);
        CHECK(r.out.find("open:\n  out/" + demo + ".png") != std::string::npos);
        CHECK(r.out.find("rests on: memory") != std::string::npos);
        CHECK(r.out.find('\x1b') == std::string::npos);  // no color codes in a pipe
        CHECK(exists("out/" + demo + ".png"));
    }
    CHECK(exists("out/stool-maple-dye-shellac-waterborne.png"));
}

TEST_CASE("--json - writes JSON to standard output and nothing else") {
    fresh_folder();
    const auto r = run("preview " + scenes_folder + "/stool-maple.toml --json - --no-pictures");
    CHECK(r.status == 0);
    CHECK(json::parse(r.out).at("finishes").size() == 3);
    CHECK_FALSE(exists("out"));
    CHECK(run("preview " + scenes_folder + "/stool-maple.toml --json a/b.json --quiet").out.empty());
    CHECK(exists("a/b.json"));
}

TEST_CASE("the same input gives the same bytes, on any locale") {
    fresh_folder();
    const std::string command = "preview " + scenes_folder + "/library-oak.toml --json - --no-pictures";
    const auto once = run(command);
    CHECK(once.out == run(command).out);
    fresh_folder();
    run("preview " + scenes_folder + "/library-oak.toml --out a --quiet");
    const auto r =
        run("preview " + scenes_folder + "/library-oak.toml --out b --quiet; cmp a/library-oak.png b/library-oak.png");
    CHECK(r.status == 0);
}

TEST_CASE("color gives a reflectance's color under each light") {
    fresh_folder();
    std::string flat = "wavelength_nm,reflectance\n";
    for (int nm = 380; nm <= 780; nm += 10) flat += std::to_string(nm) + ",0.5\n";
    write("flat.csv", flat);
    const auto r = run("color flat.csv --light D65 --light A --observer 10deg --json -");
    REQUIRE(r.status == 0);
    const auto j = json::parse(r.out);
    REQUIRE(j.at("colors").size() == 2);
    for (const auto& c : j["colors"]) {
        CHECK(c["XYZ"][1].get<double>() == Approx(50).margin(1e-9));       // Y of a grey is its reflectance
        CHECK(c["Lab"][0].get<double>() == Approx(76.0693).margin(1e-4));  // 116·0.5^(1/3) − 16
        CHECK(std::abs(c["Lab"][1].get<double>()) < 1e-9);
        CHECK(c["observer"] == "10deg");
    }
    CHECK(r.err.find("resampled to 380-780 nm") != std::string::npos);
    CHECK(run("color flat.csv").out.find("76.07") != std::string::npos);
}

TEST_CASE("materials lists, shows and checks") {
    fresh_folder();
    const auto list = run("materials");
    CHECK(list.status == 0);
    CHECK(list.out.find("garnet-shellac") != std::string::npos);
    const auto show = run("materials --show hard-maple");
    CHECK(show.out.find("Vrhel") != std::string::npos);
    CHECK(show.out.find("memory:") != std::string::npos);
    CHECK(run("materials --show LED-2700").out.find("LED-B1") != std::string::npos);
    CHECK(json::parse(run("materials --show honey-dye --json -").out).at("mix").size() >= 1);
    const auto check = run("materials --check");
    CHECK(check.status == 0);
    CHECK(check.out.find(" 0 problems") != std::string::npos);
    const auto unknown = run("materials --show hardmaple");
    CHECK(unknown.status == 1);
    CHECK(unknown.err.find("hard-maple") != std::string::npos);
}

TEST_CASE("--spectra puts another library in the built-in one's place, and its faults are told") {
    fresh_folder();
    CHECK(run("materials --check --spectra " FORETONE_SPECTRA).status == 0);
    const auto r = run("preview " + scenes_folder + "/stool-maple.toml --json - --no-pictures");
    CHECK(
        run("preview " + scenes_folder + "/stool-maple.toml --json - --no-pictures --spectra " FORETONE_SPECTRA).out ==
        r.out);
    CHECK(run("materials --spectra none").status == 1);
    write("lib/woods/bad.toml", "format = 1\nkind = \"wood\"\nname = \"x\"\nn = 1.5\n");
    const auto bad = run("materials --check --spectra lib");
    CHECK(bad.status == 1);
    CHECK(bad.err.find("lib/woods/bad.toml:4:5: n must say where it comes from") != std::string::npos);
    CHECK(bad.err.find("[key-missing]") != std::string::npos);
}

TEST_CASE("a library that lacks what a verb needs is an input at fault: every missing material is named") {
    fresh_folder();
    const std::filesystem::path lacking = folder() + "/lacking";
    std::filesystem::copy(FORETONE_SPECTRA, lacking, std::filesystem::copy_options::recursive);
    for (const char* file : {"stocks/honey-dye.toml", "films/oil-varnish.toml"})
        REQUIRE(std::filesystem::remove(lacking / file));
    const auto verify = run("verify --streams 4 --spectra lacking");
    CHECK(verify.status == 1);
    CHECK(verify.err.find("error: ") == 0);
    CHECK(verify.err.find("'honey-dye'") != std::string::npos);
    CHECK(verify.err.find("'oil-varnish'") != std::string::npos);
    CHECK(verify.err.find("[material-unknown]") != std::string::npos);
    CHECK_FALSE(exists("out/verify.md"));
    const std::string with = " --spectra lacking", scene = scenes_folder + "/stool-maple.toml";
    for (const std::string& arguments : std::vector<std::string>{
             "preview " + scene + with, "board " + scene + with, "plan " + scene + " --area 2m2" + with,
             "sheet " + scene + with, "export " + scene + " --exr" + with, "match " + scene + with,
             "coats " + scene + with, "materials --show honey-dye" + with}) {
        INFO(arguments);
        const auto r = run(arguments);
        CHECK(r.status == 1);
        CHECK(r.err.find("error: ") == 0);
        CHECK(r.err.find("[unexpected]") == std::string::npos);
    }
}

TEST_CASE("input at fault exits 1 with a message and leaves nothing behind") {
    fresh_folder();
    write("huge.toml", std::string(10'000'000, '#'));
    write("binary.toml", std::string("a\0b", 3));
    write("typo.toml", small_scene + "coat = 3\n");
    write("empty.toml", "");
    for (const std::string file : {"huge.toml", "binary.toml", "typo.toml", "empty.toml", "none.toml", "."}) {
        INFO(file);
        const auto r = run("preview " + file);
        CHECK(r.status == 1);
        CHECK(r.err.find("error: ") == 0);
        CHECK(r.err.find("[unexpected]") == std::string::npos);
        CHECK(r.out.empty());
        CHECK_FALSE(exists("out"));
    }
    CHECK(run("preview typo.toml").err ==
          "error: typo.toml:8:1: unknown key 'coat' in [[finish.step]]. Did you mean coats? [key-unknown]\n");
}

TEST_CASE("an output folder that cannot be is refused without a partial result") {
    fresh_folder();
    write("good.toml", small_scene);
    write("file", "x");
    const auto r = run("preview good.toml --out file --json also.json");
    CHECK(r.status == 1);
    CHECK(r.err.find("[out-unwritable]") != std::string::npos);
    CHECK_FALSE(exists("also.json"));
    CHECK(run("preview good.toml --out /proc/none").status == 1);
}

TEST_CASE("wrong usage exits 2, help and version 0") {
    fresh_folder();
    CHECK(run("").status == 2);
    CHECK(run("prevew x").status == 2);
    CHECK(run("preview").status == 2);
    CHECK(run("preview x --jsn y").status == 2);
    CHECK(run("--help").status == 0);
    CHECK(run("preview --help").out.find("SCENE") != std::string::npos);
    CHECK(run("--version").out == "foretone 0.1.0\n");
}

// Not under the sanitizers ([release]): minutes there; every verb has tests of its own that run under the sanitizers.
TEST_CASE("every command of README.md and scenes/README.md runs as it stands there", "[release]") {
    fresh_folder();
    link("scenes", scenes_folder);
    int count = 0;
    for (const auto& file : {std::string(README_FILE), scenes_folder + "/README.md"}) {
        std::ifstream readme(file);
        REQUIRE(readme);
        for (std::string line; std::getline(readme, line);) {
            const std::string start = "build/foretone ";
            if (line.compare(0, start.size(), start) != 0) continue;
            INFO(file << ": " << line);
            CHECK(run(line.substr(start.size(), line.find('#') - start.size())).status == 0);
            ++count;
        }
    }
    CHECK(count >= 15);
}

TEST_CASE("optics answers by both solvers, and the two agree roughly") {
    fresh_folder();
    const auto fast = json::parse(run("optics " + scenes_folder + "/stacks/dyed-zone.toml --json -").out);
    const auto exact =
        json::parse(run("optics " + scenes_folder + "/stacks/dyed-zone.toml --solver angular --json -").out);
    CHECK(fast.at("solver") == "two-flux");
    CHECK(exact.at("solver") == "angular");
    CHECK(fast.at("wavelengths_nm") == exact.at("wavelengths_nm"));
    REQUIRE(exact.at("reflectance").size() == 7);
    for (std::size_t i = 0; i < 7; ++i) {
        CHECK(fast["reflectance"][i].get<double>() == Approx(exact["reflectance"][i].get<double>()).margin(0.05));
        // The surface is a smooth interface of n = 1.5 at 45 degrees: Fresnel 0.050240.
        CHECK(exact.at("surface_reflectance")[i].get<double>() == Approx(0.05024).margin(1e-4));
    }
    CHECK(run("optics " + scenes_folder + "/stacks/dyed-zone.toml --solver guess").status == 2);
    CHECK(run("optics " + scenes_folder + "/stool-maple.toml").status == 1);
}
