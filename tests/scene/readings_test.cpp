/// Files of readings where a reflectance is due, and whole.

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include <unistd.h>

#include "foretone/scene/readings.hpp"
#include "measure/texts.hpp"
#include "support/demo.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

struct ReadingsFolder {
    ReadingsFolder() { std::filesystem::create_directories(path); }
    ~ReadingsFolder() { std::filesystem::remove_all(path); }
    std::string file(const std::string& name, const std::string& text) const {
        std::ofstream(path / name, std::ios::binary) << text;
        return (path / name).string();
    }
    std::filesystem::path path =
        std::filesystem::temp_directory_path() / ("foretone-readings-test-" + std::to_string(::getpid()));
};

const std::string spectral_columns = wavelength_columns("SPECTRAL_NM_");
std::string one_sample() {
    return "CGATS.17\nMEASUREMENT_GEOMETRY \"45/0\"\nBEGIN_DATA_FORMAT\nSAMPLE_NAME" + spectral_columns +
           "\nEND_DATA_FORMAT\nBEGIN_DATA\nbare" + wood_values() + "\nEND_DATA\n";
}

template <class Call>
scene::Problem fault(Call call) {
    try {
        call();
    } catch (const scene::InputError& e) {
        REQUIRE(e.problems.size() == 1);
        return e.problems[0];
    }
    FAIL("not refused");
    return {};
}

}  // namespace

TEST_CASE("a file with one reading is a reflectance, whatever its format") {
    const ReadingsFolder f;
    const auto cgats = scene::read_one_reflectance(f.file("one.txt", one_sample()), library());
    CHECK(cgats.name == "bare");
    CHECK(cgats.geometry == optics::Geometry::g45_0);
    CHECK(cgats.reflectance.value.size() == 31);
    REQUIRE(cgats.notes.size() == 1);
    CHECK(cgats.notes[0].id == "scale-by-values");
    const auto plain = scene::read_one_reflectance(std::string(FORETONE_SCENES) + "/readings/board.csv", library());
    CHECK(plain.name.empty());
    CHECK(plain.notes.empty());
}

TEST_CASE("of several readings one is named, or the choices are told") {
    const ReadingsFolder f;
    const auto two = f.file("two.txt", cgats(spectral_columns, wood_values(), wood_values(0.05)));
    CHECK(scene::read_one_reflectance(two, library(), "one coat").name == "one coat");
    const auto several = fault([&] { scene::read_one_reflectance(two, library()); });
    CHECK(several.id == "readings-several");
    CHECK(several.place.line == 10);
    CHECK(several.text.find("bare maple, one coat") != std::string::npos);
    const auto unknown = fault([&] { scene::read_one_reflectance(two, library(), "on coat"); });
    CHECK(unknown.id == "sample-unknown");
    CHECK(unknown.text.find("one coat") != std::string::npos);
    const auto lab = fault([&] {
        scene::read_one_reflectance(f.file("lab.txt", "light: D65\nobserver: 2deg\nbare 80 4 18.5\n"), library());
    });
    CHECK(lab.id == "reading-without-spectrum");
    CHECK(lab.text.find("lab = [80, 4, 18.5], light = \"D65\", observer = \"2deg\"") != std::string::npos);
}

TEST_CASE("what a reader refuses is told with the file's name, line and column") {
    const ReadingsFolder f;
    const auto file = f.file("cut.txt", one_sample().substr(0, 600));
    const auto cut = fault([&] { scene::read_readings(file, library()); });
    CHECK(cut.id == "cgats-data-open");
    CHECK(cut.place.text() == file + ":6:1");
    const auto light = fault(
        [&] { scene::read_readings(f.file("light.txt", "light: D56\nobserver: 2deg\nbare 80 4 18\n"), library()); });
    CHECK(light.id == "light-unknown");
    CHECK(light.text.find("D65") != std::string::npos);
    CHECK(fault([&] { scene::read_readings(f.path / "none", library()); }).id == "file-missing");
    CHECK(fault([&] {
              scene::read_one_reflectance(f.file("book.xlsx", std::string("PK\x03\x04") + std::string(40, '\0')),
                                          library());
          }).id == "text-zipped");
    measure::Options small;
    small.most_bytes = 100;
    CHECK(fault([&] { scene::read_readings(file, library(), small); }).id == "file-too-large");
}

TEST_CASE("XYZ of a file becomes Lab by the library's lights") {
    const ReadingsFolder f;
    const auto r = scene::read_readings(
        f.file("xyz.csv", "# light: D65\n# observer: 10deg\nname,X,Y,Z\nwhite,94.811,100,107.304\n"), library());
    // White of D65 for the 10 degree observer, ASTM E308-01 Table 5: 94.811 100 107.304.
    REQUIRE(r.readings[0].lab);
    CHECK_THAT(r.readings[0].lab->l, Near(100, 1e-9));
    CHECK_THAT(r.readings[0].lab->a, Near(0, 0.05));
    CHECK_THAT(r.readings[0].lab->b, Near(0, 0.05));
}

TEST_CASE("a scene takes its wood and its target from a file of readings, and tells what was adapted") {
    const ReadingsFolder f;
    f.file("one.txt", one_sample());
    f.file("two.csv", "wavelength_nm;bare;oiled\n400;0,1;0,05\n500;0,2;0,1\n");
    const std::string finish = "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
    const auto s = scene::read_scene_text("format = 1\n[wood]\nreflectance = \"one.txt\"\nlike = \"hard-maple\"\n" +
                                              finish + "[target]\nreflectance = \"one.txt\"\nsample = \"bare\"\n",
                                          "test.toml", f.path, library());
    const auto& wood = std::get<material::Wood>(s.materials.at("board").data);
    CHECK(wood.geometry == optics::Geometry::g45_0);  // as the file says
    CHECK(wood.reflectance.from.source.find("'bare' in one.txt") != std::string::npos);
    CHECK(s.target->reflectance.has_value());
    bool told = false;
    for (const auto& w : s.warnings) told = told || w.id == "scale-by-values";
    CHECK(told);

    const auto geometry = fault([&] {
        scene::read_scene_text(
            "format = 1\n[wood]\nreflectance = \"one.txt\"\ngeometry = \"d/8-included\"\nlike = \"hard-maple\"\n" +
                finish,
            "test.toml", f.path, library());
    });
    CHECK(geometry.id == "geometry-contradicts");
    CHECK(geometry.place.line == 4);
    const auto coarse = fault([&] {
        scene::read_scene_text(
            "format = 1\n[wood]\nreflectance = \"two.csv\"\ngeometry = \"45/0\"\nlike = \"hard-maple\"\n" + finish,
            "test.toml", f.path, library());
    });
    CHECK(coarse.id == "spectrum-coarse");
    CHECK(coarse.place.line == 3);
    const auto lonely = fault([&] {
        scene::read_scene_text(
            "format = 1\n[wood]\nuse = \"hard-maple\"\n" + finish + "[target]\nfinish = \"x\"\nsample = \"bare\"\n",
            "test.toml", f.path, library());
    });
    CHECK(lonely.id == "key-conflict");
}
