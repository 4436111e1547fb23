#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string walnut = "board " FORETONE_SCENES "/desk-walnut.toml ";
const std::string small = "--size-mm 60x40 --mm-per-px 0.5 ";

}  // namespace

TEST_CASE("board writes a picture a finish and light, with the bare control, and tells how near the mean is") {
    fresh_folder();
    const auto r = run(walnut + small + "--light D65 --tilt --json board.json");
    CHECK(r.status == 0);
    CHECK(r.out.find("bare") != std::string::npos);
    CHECK(r.out.find("seed ") != std::string::npos);
    CHECK(r.out.find("Screens and prints are not the sample") != std::string::npos);
    CHECK(exists("out/desk-walnut-board-bare-window.png"));
    CHECK(exists("out/desk-walnut-board-bare-tilt.png"));
    CHECK(exists("board.json"));
    const auto j = json::parse(run(walnut + small + "--view flat --json -").out);
    CHECK(j.at("board").at("width_px") == 120);
    CHECK(j.at("board").at("view") == "flat");
    REQUIRE(j.at("boards").size() > 2);
    for (const auto& b : j.at("boards")) {
        CHECK(b.at("dE00_mean_to_predicted") < 0.3);
        CHECK(b.at("contrast").at("ratio") > 1);
        CHECK(b.at("share_white") == 0);
    }
    CHECK(run(walnut + small + "--json -").out == run(walnut + small + "--json -").out);
    CHECK(run(walnut + small + "--seed 5 --json -").out != run(walnut + small + "--json -").out);
}

TEST_CASE("board takes any two of millimetres, pixels and scale") {
    fresh_folder();
    const auto board = [](const std::string& arguments) {
        return json::parse(run(walnut + "--finish bare --light D65 --json - " + arguments).out).at("board");
    };
    CHECK(board("--px 300x200").at("mm_per_px") == 1);
    CHECK(board("--px 120x80 --mm-per-px 0.5").at("height_mm") == 40);
    CHECK(board("--px 120x80 --size-mm 60x40").at("mm_per_px") == 0.5);
}

TEST_CASE("board refuses what it cannot draw, and writes nothing") {
    fresh_folder();
    const std::pair<const char*, const char*> refused[] = {{"--size-mm 300", "[board-sides]"},
                                                           {"--size-mm 300x-2", "[board-sides]"},
                                                           {"--px 120x80 --size-mm 60x60", "[board-sides]"},
                                                           {"--px 120x80 --size-mm 60x40 --mm-per-px 0.5", "[board-sides]"},
                                                           {"--mm-per-px 3", "[board-scale]"},
                                                           {"--size-mm 6000x4000", "[board-size]"},
                                                           {"--size-mm 4x4", "[board-size]"},
                                                           {"--finish shiny", "[finish-unknown]"},
                                                           {"--light D66", "[light-unknown]"}};
    for (const auto& [arguments, id] : refused) {
        INFO(arguments);
        const auto r = run(walnut + arguments);
        CHECK(r.status == 1);
        CHECK(r.err.find("error: ") == 0);
        CHECK(r.err.find(id) != std::string::npos);
        CHECK_FALSE(exists("out"));
    }
    CHECK(run(walnut + "--view sideways").status == 2);
    CHECK(run(walnut + "--cut across").status == 2);
}
