#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string export_stool = "export " FORETONE_SCENES "/stool-maple.toml --size-mm 60x40 --px 60x40 ";

}  // namespace

TEST_CASE("export writes everything for one finish, says what each file is and what is lost") {
    fresh_folder();
    const auto r = run(export_stool + "--finish 'clear only' --light D65 --json all.json");
    INFO(r.err);
    CHECK(r.status == 0);
    for (const char* file : {"clear-only-d65.exr", "fields-d65.exr", "clear-only-spectral.exr", "fields-spectral.exr",
                             "clear-only.mtlx", "clear-only-openpbr-base.png", "clear-only.gltf", "palette-d65.txt"}) {
        INFO(file);
        CHECK(exists("out/stool-maple-" + std::string(file)));
        CHECK(r.out.find("out/stool-maple-" + std::string(file)) != std::string::npos);
    }
    CHECK(r.out.find("what a renderer with three channels loses") != std::string::npos);
    CHECK(r.out.find("Predicted, not measured") != std::string::npos);
    CHECK(exists("all.json"));
}

TEST_CASE("export writes what is asked for alone, and its JSON counts the files and the losses") {
    fresh_folder();
    const auto r = run(export_stool + "--gltf --palette --one-color --cut quarter --seed 3 --json -");
    CHECK(r.status == 0);
    const auto j = json::parse(r.out);
    CHECK(j["files"].size() == 5);
    CHECK(j["materials"].size() == 3);
    for (const auto& m : j["materials"]) {
        CHECK(m["kind"] == "gltf");
        CHECK(m["loss_dE00"]["D65"] < 0.01);
        CHECK(m["loss_dE00"]["A"] > 1);
        CHECK(m.count("texels") == 0);
    }
    CHECK_FALSE(exists("out/stool-maple-clear-only.mtlx"));
}

TEST_CASE("export says what will not hold and what to be careful of, on the terminal and in its JSON") {
    fresh_folder();
    const std::string linseed =
        "export " FORETONE_SCENES "/linseed-then-waterborne.toml --finish 'two days' --palette --light D65 ";
    const auto r = run(linseed);
    CHECK(r.status == 0);
    CHECK(r.out.find("does not hold [uncured-below]") != std::string::npos);
    CHECK(r.out.find("\ncautions\n") != std::string::npos);
    const auto told = run(linseed + "--json -");
    CHECK(told.err.find("caution: ") != std::string::npos);
    const auto j = json::parse(told.out);
    REQUIRE(j.at("finishes").size() == 1);
    CHECK(j.at("finishes").at(0).at("findings").at(0).at("id") == "uncured-below");
    CHECK(j.at("cautions").dump().find("oily-rags") != std::string::npos);
}

TEST_CASE("export refuses values that make no board, and writes nothing") {
    fresh_folder();
    const std::string scene = "export " FORETONE_SCENES "/stool-maple.toml ";
    struct Refused {
        const char *arguments, *words;
        int status = 1;
    };
    const Refused refused[] = {
        {"--size-mm 300", "--size-mm takes length and width, as 300x200; read \"300\" [option-value]", 2},
        {"--size-mm 300x-2", "[option-value]", 2},
        {"--px 300x200.5", "--px takes length and width in whole pixels, as 900x600; read \"300x200.5\" [option-value]",
         2},
        {"--px 300x100", "is 200 wide, not 100 [size-range]"},
        {"--seed -1", "--seed takes a whole number", 2},
        {"--size-mm 9000x200", "a board is 5 to 3000 mm long and wide, got 9000 by 200 [size-range]"},
        {"--px 30000x20000", "[export-large]"},
        {"--finish clear", "there is no finish \"clear\""},
        {"--light D65 --light B", "there is no light \"B\""}};
    for (const auto& [arguments, words, status] : refused) {
        INFO(arguments);
        const auto r = run(scene + arguments);
        INFO(r.err);
        CHECK(r.status == status);
        CHECK(r.err.find("error: ") == 0);
        CHECK(r.err.find(words) != std::string::npos);
        CHECK_FALSE(exists("out"));
    }
    CHECK(run(scene + "--cut slab").status == 2);
    CHECK(run("export").status == 2);
}
