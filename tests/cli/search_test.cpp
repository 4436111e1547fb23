#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"
#include "support/sanitized.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string chest = FORETONE_SCENES "/chest-ash.toml ";

}  // namespace

// Not under the sanitizers ([release]): minutes there: the whole search three times; the scene suite searches under the
// sanitizers.
TEST_CASE("match recommends a recipe for the demo, writes its picture, and says how much it judged", "[release]") {
    fresh_folder();
    const auto r = run("match " + chest);
    CHECK(r.status == 0);
    CHECK(r.out.find("50484 of 50484 recipes judged") != std::string::npos);
    CHECK(r.out.find("recommended: ") != std::string::npos);
    CHECK(r.out.find("open:\n  out/chest-ash-match.png") != std::string::npos);
    CHECK(r.err.find("recipes judged") == std::string::npos);  // no progress in a pipe
    CHECK(exists("out/chest-ash-match.png"));
}

TEST_CASE("match gives the same bytes whatever the number of threads", "[release]") {
    fresh_folder();
    const std::string command = "match " + chest + "--json - --no-pictures --threads ";
    const auto one = run(command + "1"), three = run(command + "3");
    REQUIRE(one.status == 0);
    CHECK(one.out == three.out);
    const auto j = json::parse(one.out);
    CHECK(j.at("examined") == j.at("recipes"));
    const auto& first = j.at("candidates").at(0);
    // The demo's promise: a colored shellac under waterborne, with or without a trace of dye, reads like the oiled
    // piece: within ΔE00 1.5 under every light, where the waterborne alone is off by more than 3.
    CHECK(first.at("recipe").get<std::string>().find("-shellac") != std::string::npos);
    CHECK(first.at("worst_dE00") < 1.5);
    CHECK(j.at("candidates").back().at("worst_dE00") > 3);
    for (const auto& color : first.at("colors")) CHECK(color.contains("metamerism_index"));
}

TEST_CASE("parts of a search, joined in any order, are the answer of one run to the last byte") {
    fresh_folder();
    const std::string command = "match " + chest + "--no-pictures ";
    if (sanitized()) {  // one part of very many is as good a part
        REQUIRE(run(command + "--quiet --part 2/100000 --json part-2.json").status == 0);
    } else {
        constexpr int parts = 3;
        std::string files;
        for (int k = parts; k >= 1; --k) {
            const std::string file = "part-" + std::to_string(k) + ".json";
            REQUIRE(run(command + "--quiet --part " + std::to_string(k) + "/3 --json " + file).status == 0);
            files += " " + file;
        }
        const auto whole = run(command + "--json -"), joined = run(command + "--json - --join" + files);
        REQUIRE(joined.status == 0);
        CHECK(joined.out == whole.out);
    }
    SECTION("what is missing is named") {
        const auto r = run(command + "--join part-2.json");
        CHECK(r.status == 1);
        CHECK(r.err.find("[part-missing]") != std::string::npos);
    }
    SECTION("a part of another scene is refused by its name, a cut one too, and so are words that are no part") {
        write("other.json", R"({"part": [1, 1], "problem": "0000000000000000", "recipes": 7, "kept": []})");
        CHECK(run(command + "--join other.json").err.find("other.json: this part is of another scene") !=
              std::string::npos);
        write("cut.json", R"({"part": [1, 1], "problem": "00000)");
        CHECK(run(command + "--join cut.json").err.find("[part-file]") != std::string::npos);
        CHECK(run(command + "--part 4/3 --json x.json").err.find("[part-unknown]") != std::string::npos);
        CHECK(run(command + "--part 1/3").status == 2);
        CHECK(run(command + "--part 1/3 --join cut.json").status == 2);
    }
}

TEST_CASE("a budget that is used up leaves the best so far and says what was not examined") {
    fresh_folder();
    const auto r = run("match " + chest + "--json - --no-pictures --budget 0.000001");
    REQUIRE(r.status == 0);
    const auto j = json::parse(r.out);
    CHECK(j.at("examined") < j.at("recipes"));
    CHECK(j.at("not_examined").get<std::string>().find("the budget of 0.0 s was used up: ") == 0);
    CHECK(run("match " + chest + "--budget 0").status == 2);
    CHECK(run("match " + chest + "--threads 0").status == 2);
}

TEST_CASE("coats prints the ladder, its verdict and its picture; a finish or step that is not there is refused") {
    fresh_folder();
    const std::string command = "coats " + chest + "--finish 'amber shellac under waterborne' ";
    const auto r = run(command + "--step 1 --upto 4");
    CHECK(r.status == 0);
    CHECK(r.out.find("nearest the target: ") != std::string::npos);
    CHECK(exists("out/chest-ash-coats.png"));
    CHECK(json::parse(run(command + "--json - --no-pictures").out).at("coats").size() == 7);
    const auto bad = run(command + "--step 3");
    CHECK(bad.status == 1);
    CHECK(bad.err.find("[step-unknown]") != std::string::npos);
    CHECK(run("match " FORETONE_SCENES "/stool-maple.toml").err.find("[target-missing]") != std::string::npos);
    const auto plain = run("coats " FORETONE_SCENES "/shelf-pine.toml --no-pictures");
    CHECK(plain.status == 0);
    CHECK(plain.out.find("nearest the target") == std::string::npos);
}
