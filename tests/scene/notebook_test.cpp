#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "foretone/report/json.hpp"
#include "foretone/scene/notebook.hpp"
#include "foretone/search/words.hpp"
#include "support/demo.hpp"
#include "support/folder.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

scene::NotebookEntry an_entry(const std::string& date) {
    scene::NotebookEntry e;
    e.date = date;
    e.finish = "x";
    e.recipe = "oil-varnish";
    e.wood = "Hard \"rock\" maple\\\n";
    e.geometry = "45/0";
    e.predicted = {{"D65", "2deg", {70.123, 10, 30}}};
    e.sample = "first";
    e.read = {{"D65", "2deg", {69, 11, 31}}, {"A", "2deg", {71, 14, 33}}};
    e.de00 = 1.234;
    e.changed = "step 1: 3 coats";
    return e;
}

const std::string scene_text =
    "format = 1\n[wood]\nuse = \"hard-maple\"\n[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"oil-varnish\"\n";

std::string fault(const Folder& f, const std::string& notebook) {
    f.write("s.job.toml", notebook);
    try {
        scene::read_notebook(f / "s.toml");
        return "none";
    } catch (const scene::InputError& e) {
        CHECK(e.problems.front().place.file.find("s.job.toml") != std::string::npos);
        return e.problems.front().id;
    }
}

}  // namespace

TEST_CASE("entries are kept, read back, and added to without touching a byte of what stands there") {
    const Folder f("notebook");
    const auto scene = f.write("s.toml", scene_text);
    CHECK_FALSE(scene::read_notebook(scene).there);
    scene::keep_entry(scene, "Stool", an_entry("2026-03-02"));
    const auto first = f.read("s.job.toml") + "# a line by hand";
    f.write("s.job.toml", first);
    scene::keep_entry(scene, "Stool", an_entry("2026-03-09"));
    const auto second = f.read("s.job.toml");
    CHECK(second.substr(0, first.size()) == first);
    const auto book = scene::read_notebook(scene);
    REQUIRE(book.entries.size() == 2);
    CHECK(book.there);
    const auto& e = book.entries[1];
    CHECK(e.id == 2);
    CHECK(e.date == "2026-03-09");
    CHECK(e.wood == "Hard \"rock\" maple\\ ");  // a line break inside is a blank
    CHECK(e.read.size() == 2);
    CHECK(e.predicted[0].lab.l == 70.12);
    CHECK(*e.de00 == 1.23);
    CHECK(e.changed == "step 1: 3 coats");
}

TEST_CASE("a broken notebook is told, and nothing is added to it") {
    const Folder f("notebook-broken");
    const auto scene = f.write("s.toml", scene_text);
    CHECK(fault(f, "format = 1\n[[entry]\n") == "toml-syntax");
    CHECK_THROWS_AS(scene::keep_entry(scene, "x", an_entry("2026-03-02")), scene::InputError);
    CHECK(f.read("s.job.toml") == "format = 1\n[[entry]\n");
    CHECK(fault(f, "") == "key-missing");
    CHECK(fault(f, "format = 1\nentry = 3\n") == "value-type");
    CHECK(fault(f, "format = 1\n[[entry]]\ndate = \"2026-02-30\"\nfinish = \"x\"\n") == "date-syntax");
    CHECK(fault(f, "format = 1\n[[entry]]\ndate = \"2026-02-28\"\n") == "key-missing");
    CHECK(fault(f, "format = 1\n[[entry]]\ndate = \"2026-02-28\"\nfinish = \"x\"\nread = [ { light = \"D65\" } ]\n") ==
          "notebook-color");
    CHECK(fault(f, "format = 1\n[[entry]]\ndate = \"2026-02-28\"\nfinish = \"x\"\nread = 5\n") == "value-type");
    CHECK(fault(f, "format = 1\n[[entry]]\ndate = \"2026-02-28\"\nfinish = \"x\"\nnotes = \"y\"\n") == "key-unknown");
    CHECK(fault(f, std::string("format = 1\n\0", 12)) != "none");
}

TEST_CASE("an entry needs a real date") {
    const Folder f("notebook-date");
    const auto scene = f.write("s.toml", scene_text);
    for (const char* date : {"", "yesterday", "2026-13-01", "2026-02-29", "2026-3-1", "02-03-2026"}) {
        INFO(date);
        CHECK_THROWS_AS(scene::keep_entry(scene, "x", an_entry(date)), scene::InputError);
    }
    CHECK_NOTHROW(scene::keep_entry(scene, "x", an_entry("2028-02-29")));
}

TEST_CASE("preview sets earlier readings beside what is predicted now, and says nothing without a notebook") {
    const Folder f("notebook-preview");
    const auto path = f.write("s.toml", scene_text);
    const auto s = scene::read_scene(path, library());
    const auto p = job::preview(s, library(), appearance::two_flux_solver());
    CHECK_FALSE(nlohmann::json::parse(report::preview_json(p, scene::read_notebook(path)))
                    .at("finishes")
                    .at(0)
                    .contains("earlier"));
    auto e = an_entry("2026-03-02");
    e.recipe = search::mixing_line(s.finishes[0]);
    scene::keep_entry(path, "x", e);
    const auto j = nlohmann::json::parse(report::preview_json(p, scene::read_notebook(path)));
    const auto& earlier = j.at("finishes").at(0).at("earlier");
    REQUIRE(earlier.size() == 1);  // the look has no light A
    CHECK(earlier[0].at("date") == "2026-03-02");
    CHECK(earlier[0].at("same_recipe") == true);
    const auto& now = p.finishes[0].stages.back().colors[0].lab;
    CHECK(earlier[0].at("dE00").get<double>() == Approx(color::delta_e_00({69, 11, 31}, now)));
}

TEST_CASE("a notebook that cannot be written is not told to go to --out") {
    const Folder f("notebook-unwritable");
    const auto scene = f.write("s.toml", scene_text);
    std::filesystem::create_directory(f / "s.job.toml");
    try {
        scene::keep_entry(scene, "x", an_entry("2026-03-02"));
        FAIL("written over a folder");
    } catch (const scene::InputError& e) {
        CHECK(e.problems.front().id == "out-unwritable");
        CHECK(e.problems.front().text.find("copy the scene into a folder that can be written") != std::string::npos);
        CHECK(e.problems.front().text.find("--out") == std::string::npos);
    }
    scene::OutputFile picture = scene::OutputFile::text(f / "s.job.toml", "x");
    CHECK_THROWS_WITH(scene::write_all({picture}), Catch::Contains("--out DIR"));
}
