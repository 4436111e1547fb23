#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <cstdio>

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
    const std::pair<const char*, const char*> refused[] = {{"--mm-per-px 3", "[board-scale]"},
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
    const std::pair<const char*, const char*> wrong_usage[] = {
        {"--size-mm 300", "[board-sides]"},
        {"--size-mm 300x-2", "[board-sides]"},
        {"--size-mm 0x0",
         "board: --size-mm is \"0x0\"; it takes two numbers above 0 with an x between, like 300x200 [board-sides]"},
        {"--px 120x80 --size-mm 60x60", "[board-sides]"},
        {"--px 120x80 --size-mm 60x40 --mm-per-px 0.5", "[board-sides]"},
        {"--mm-per-px inf", "--mm-per-px takes a number of millimetres above 0, not 'inf'"},
        {"--mm-per-px 0", "--mm-per-px takes a number"}};
    for (const auto& [arguments, words] : wrong_usage) {
        const auto r = run(walnut + arguments);
        INFO(arguments << ": " << r.err);
        CHECK(r.status == 2);
        CHECK(r.err.find(words) != std::string::npos);
        CHECK(r.err.size() < 300);
        CHECK_FALSE(exists("out"));
    }
    CHECK(run(walnut + "--view sideways").status == 2);
    CHECK(run(walnut + "--cut across").status == 2);
}

TEST_CASE("board says which schedule will not hold, in words, in its table and in its JSON") {
    fresh_folder();
    const std::string linseed = "board " FORETONE_SCENES "/linseed-then-waterborne.toml --light D65 " + small;
    const auto r = run(linseed);
    CHECK(r.status == 0);
    CHECK(r.out.find("two days (WILL NOT HOLD)") != std::string::npos);
    CHECK(r.out.find(
              "failure: step 2: Waterborne acrylic over Boiled linseed oil of 2 days does not hold [uncured-below]") !=
          std::string::npos);
    CHECK(r.out.find("three weeks (WILL") == std::string::npos);
    const auto j = json::parse(run(linseed + "--finish 'two days' --json -").out);
    REQUIRE(j.at("finishes").size() == 1);
    CHECK(j.at("finishes").at(0).at("name") == "two days");
    CHECK(j.at("finishes").at(0).at("findings").at(0).at("id") == "uncured-below");
    CHECK(j.at("cautions").dump().find("oily-rags") != std::string::npos);
}

TEST_CASE("board's word for the grain rests on the figures beside it") {
    fresh_folder();
    const auto r = run(walnut + small + "--light D65 --json board.json");
    const auto j = json::parse(run(walnut + small + "--light D65 --json -").out);
    const double bare = j.at("boards").at(0).at("contrast").at("ratio");
    for (const auto& b : j.at("boards")) {
        if (b.at("finish") == "bare") continue;
        const double ratio = b.at("contrast").at("ratio"), times = ratio / bare;
        char figures[64];
        std::snprintf(figures, sizeof figures, "%.2f -> %.2f %s", bare, ratio,
                      times > 1.3    ? "much bolder"
                      : times > 1.08 ? "bolder"
                      : times < 0.77 ? "much quieter"
                      : times < 0.93 ? "quieter"
                                     : "as bare");
        INFO(figures << "\n" << r.out);
        CHECK(r.out.find(figures) != std::string::npos);
        CHECK(b.at("contrast").count("dL") == 1);
    }
}

TEST_CASE("a finish or light asked for twice is one board") {
    fresh_folder();
    const auto j = json::parse(
        run(walnut + small + "--finish waterborne --finish waterborne --light D65 --light D65 --json -").out);
    CHECK(j.at("boards").size() == 1);
}

TEST_CASE("seeds are refused alike by all that draw wood, and readers of JSON keep them") {
    fresh_folder();
    for (const std::string verb : {"board ", "sheet ", "export "}) {
        for (const auto* seed : {"-1", "9007199254740992", "99999999999999999999999", "1.5", "x"}) {
            const auto r = run(verb + FORETONE_SCENES "/desk-walnut.toml --seed " + seed);
            INFO(verb << seed << ": " << r.err);
            CHECK(r.status == 2);
            CHECK(r.err.find("--seed takes a whole number from 0 to 9007199254740991; read \"") != std::string::npos);
            CHECK_FALSE(exists("out"));
        }
    }
    const auto seed_of = [](const std::string& arguments) {
        return json::parse(run(walnut + small + "--finish bare --light D65 --json - " + arguments).out)
            .at("board")
            .at("seed")
            .get<std::uint64_t>();
    };
    CHECK(seed_of("--seed 9007199254740991") == 9007199254740991U);
    const auto by_title = seed_of("");
    CHECK(by_title < 9007199254740992U);
    CHECK(seed_of("--seed " + std::to_string(by_title)) == by_title);
}
