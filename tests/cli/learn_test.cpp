#include <catch2/catch.hpp>
#include <cstdlib>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

TEST_CASE("fit writes a file of materials that a scene takes as it is") {
    fresh_folder();
    const auto r = run("fit " FORETONE_SCENES "/boards/maple-plank.toml --json fit.json");
    INFO(r.err);
    REQUIRE(r.status == 0);
    CHECK(r.out.find("march-shellac (in place of orange-shellac)") != std::string::npos);
    CHECK(r.out.find("each predicted from the others alone") != std::string::npos);
    REQUIRE(exists("out/maple-plank.toml"));
    REQUIRE(exists("fit.json"));
    write("own.toml",
          "format = 1\nmaterials = [\"out/maple-plank.toml\"]\n[look]\nobserver = \"10deg\"\ngeometry = "
          "\"d/8-included\"\n[wood]\nuse = \"plank-maple\"\n"
          "[[finish]]\nname = \"x\"\n[[finish.step]]\nuse = \"march-shellac\"\ncut_lb = 1.5\ncoats = 2\nmethod = "
          "\"spray\"\n");
    const auto preview = run("preview own.toml --no-pictures");
    CHECK(preview.status == 0);
    CHECK(preview.out.find("Hard maple (Acer saccharum), own boards") != std::string::npos);
}

TEST_CASE("fit refuses what makes no fit, names why, and writes nothing") {
    fresh_folder();
    write("b.toml",
          "format = 1\nby = \"x\"\n[look]\nlight = \"D65\"\nobserver = \"10deg\"\ngeometry = "
          "\"d/8-included\"\n[[board]]\nname = "
          "\"A\"\nwood = \"ash\"\n"
          "reading = [ { lab = [75, 5, 20] } ]\n");
    const auto r = run("fit b.toml");
    CHECK(r.status == 1);
    CHECK(r.err.find("[fit-too-few]") != std::string::npos);
    CHECK_FALSE(exists("out"));
    CHECK(run("fit none.toml").status == 1);
    CHECK(run("fit").status == 2);
}

TEST_CASE("correct names one change for the demo's first board, keeps it under a date, and preview shows it again") {
    fresh_folder();
    std::string copy = "cp '" FORETONE_SCENES "/stool-maple.toml' '" + folder() + "/stool.toml'";
    REQUIRE(std::system(copy.c_str()) == 0);
    const std::string command = "correct stool.toml --finish 'dye, shellac, waterborne' --measured " FORETONE_SCENES
                                "/readings/stool-first-board.txt";
    const auto r = run(command + " --keep 2026-03-02");
    INFO(r.err << r.out);
    REQUIRE(r.status == 0);
    CHECK(r.out.find("change one thing: step 1: dilute the dye to ") != std::string::npos);
    CHECK(r.out.find("kept in stool.job.toml") != std::string::npos);
    REQUIRE(exists("stool.job.toml"));
    const auto preview = run("preview stool.toml --no-pictures --json p.json");
    CHECK(preview.status == 0);
    CHECK(preview.out.find("2026-03-02") != std::string::npos);
    CHECK(preview.out.find("same recipe") != std::string::npos);
    const auto again = run(command + " --keep 2026-03-40");
    CHECK(again.status == 1);
    CHECK(again.err.find("[date-syntax]") != std::string::npos);
    const auto j = run(command + " --json -");
    const auto parsed = json::parse(j.out);
    CHECK(parsed.at("proposals").size() == 3);
    CHECK(parsed.at("proposals").at(0).at("worst_dE00") < 1.0);
    // A broken notebook stops what would add to it.
    write("stool.job.toml", "format = 1\n[[entry]\n");
    CHECK(run(command + " --keep 2026-03-09").status == 1);
    // No preview is lost to it.
    for (const std::string& damaged :
         {std::string("format = 1\n[[entry]\n"), std::string(), std::string("\0\1\2", 3)}) {
        write("stool.job.toml", damaged);
        const auto seen = run("preview stool.toml --no-pictures");
        CHECK(seen.status == 0);
        CHECK(seen.out.find("dye, shellac, waterborne") != std::string::npos);
        CHECK(seen.err.find("stool.job.toml") != std::string::npos);
        CHECK(seen.err.find("the preview goes on without the job notebook") != std::string::npos);
        CHECK(run(command + " --keep 2026-03-09").status == 1);
    }
}
