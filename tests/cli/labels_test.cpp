/// Labels and their code, from `plan` to `correct`; films in US units.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/program.hpp"

using namespace foretone::test;

namespace {

const std::string stool_scene = FORETONE_SCENES "/stool-maple.toml";
const std::string dyed = " --finish 'dye, shellac, waterborne' ";

bool holds(const std::string& text, const std::string& due) { return text.find(due) != std::string::npos; }

}  // namespace

TEST_CASE("the code on a label that plan prints says to correct which finish is on the board") {
    fresh_folder();
    const auto plan = run("plan " + stool_scene + dyed + "--area 12ft2 --labels --pdf --json plan.json");
    INFO(plan.err);
    REQUIRE(plan.status == 0);
    CHECK(exists("out/stool-maple-dye-shellac-waterborne-labels.html"));
    CHECK(exists("out/stool-maple-dye-shellac-waterborne-labels.pdf"));
    CHECK(exists("out/stool-maple-dye-shellac-waterborne-card.pdf"));
    CHECK(holds(plan.out, "stickers: print at 100 %"));
    std::ifstream in(folder() + "/plan.json");
    const std::string code = nlohmann::json::parse(in)["code"];
    CHECK(holds(plan.out, "code: " + code));

    const std::string measured =
        "correct " + stool_scene + " --measured " FORETONE_SCENES "/readings/stool-first-board.txt ";
    const auto by_code = run(measured + "--code " + code);
    CHECK(by_code.status == 0);
    CHECK(by_code.out == run(measured + dyed).out);
    auto slip = code;
    slip[0] = slip[0] == 'A' ? 'B' : 'A';
    const auto refused = run(measured + "--code " + slip);
    CHECK(refused.status == 1);
    CHECK(holds(refused.err, "[code-slip]"));
    CHECK(holds(refused.err, code + " \"dye, shellac, waterborne\""));
    CHECK(holds(run(measured + "--finish 'clear only' --code " + code).err, "[code-contradicts]"));
}

TEST_CASE("films are printed in mil where units are US, and in micrometres where they are not") {
    fresh_folder();
    const std::string pine = FORETONE_SCENES "/shelf-pine.toml --no-pictures ";
    for (const std::string verb : {"preview ", "coats "}) {
        INFO(verb);
        const auto us = run(verb + pine + "--units us").out, metric = run(verb + pine).out;
        CHECK(holds(us, "film mil"));
        CHECK_FALSE(holds(us, "film um"));
        CHECK(holds(metric, "film um"));
    }
}
