#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "foretone/scene/library.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/scene.hpp"
#include "support/demo.hpp"

using namespace foretone;
using foretone::test::library;

namespace {

// The id of the first problem that asking for a light makes; empty if it is there.
std::string light_fault(const std::string& id) {
    try {
        library().illuminant(id);
    } catch (const scene::InputError& e) {
        return e.problems.front().id;
    }
    return "";
}

class LampFolder {
public:
    LampFolder() : path_(std::filesystem::temp_directory_path() / "foretone-lights-test") {
        std::filesystem::create_directories(path_);
    }
    ~LampFolder() { std::filesystem::remove_all(path_); }
    std::string file(const std::string& name, const std::string& text) const {
        std::ofstream(path_ / name) << text;
        return (path_ / name).string();
    }

private:
    std::filesystem::path path_;
};

constexpr const char* lamp_head = "# my lamp\nwavelength_nm,power\n";

}  // namespace

TEST_CASE("a light can be had by name, by temperature and from a file") {
    CHECK(library().illuminant("LED-B3").power.value == library().illuminant("LED-4000").power.value);
    CHECK(library().illuminant("D5500").id == "D5500");
    CHECK(library().illuminant("P2700").power.value.size() > 50);
    const LampFolder folder;
    const auto lamp = folder.file("lamp.csv", std::string(lamp_head) +
                                                  "390,1\n410,2\n430,3\n450,9\n470,4\n490,2\n510,5\n530,"
                                                  "6\n550,7\n570,7\n590,7\n610,6\n630,5\n650,4\n670,3\n690,2\n710,1\n");
    const auto own = library().illuminant(lamp);
    CHECK(own.id == lamp);
    CHECK(own.power.value[3] == 9);
    for (const auto& id : {std::string("A"), std::string("D5500"), lamp}) CHECK(library().has_light(id));
    for (const char* id : {"", "D65 ", "D3000", "P99", "hard-maple", "2deg"}) CHECK_FALSE(library().has_light(id));
}

TEST_CASE("a light that is not to be had is told apart: unknown, out of range, a bad lamp") {
    CHECK(light_fault("LED-B9") == "light-unknown");
    CHECK(light_fault("hard-maple") == "light-unknown");
    CHECK(light_fault("D3000") == "light-temperature");
    CHECK(light_fault("P90000") == "light-temperature");
    const LampFolder folder;
    CHECK(light_fault(folder.file("short.csv", std::string(lamp_head) + "450,1\n460,1\n470,1\n")) == "lamp-range");
    CHECK(light_fault(folder.file("coarse.csv", std::string(lamp_head) + "380,1\n500,1\n600,1\n780,1\n")) ==
          "lamp-range");
    std::string dark = lamp_head, negative = lamp_head;
    for (int nm = 380; nm <= 780; nm += 20) {
        dark += std::to_string(nm) + ",0\n";
        negative += std::to_string(nm) + (nm == 500 ? ",-1\n" : ",1\n");
    }
    CHECK(light_fault(folder.file("dark.csv", dark)) == "lamp-dark");
    CHECK(light_fault(folder.file("negative.csv", negative)) == "lamp-negative");
}

TEST_CASE("a scene finds its lamp beside itself, and says where a light is wrong") {
    const LampFolder folder;
    std::string lamp = lamp_head;
    for (int nm = 380; nm <= 780; nm += 20) lamp += std::to_string(nm) + "," + std::to_string(nm - 300) + "\n";
    folder.file("lamp.csv", lamp);
    const std::string body =
        "[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"one\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";
    const auto good =
        folder.file("good.toml", "format = 1\ntitle = \"t\"\n[look]\nlights = [\"D5500\", \"lamp.csv\"]\n" + body);
    const auto s = scene::read_scene(good, library());
    REQUIRE(s.look.lights.size() == 2);
    CHECK(s.look.lights[1].ends_with("lamp.csv"));
    CHECK(library().illuminant(s.look.lights[1]).power.value.front() == 80);
    const auto bad =
        folder.file("bad.toml", "format = 1\ntitle = \"t\"\n[look]\nlights = [\"D65\", \"D3000\"]\n" + body);
    try {
        scene::read_scene(bad, library());
        FAIL("a light out of range was taken");
    } catch (const scene::InputError& e) {
        CHECK(e.problems.front().id == "light-temperature");
        CHECK(e.problems.front().place.line == 4);
    }
}
