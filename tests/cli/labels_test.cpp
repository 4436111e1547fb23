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
        CHECK_FALSE(holds(us, "film µm"));
        CHECK(holds(metric, "film µm"));
    }
    // 25.4 µm a mil (NIST SP 811).
    const std::string fit = "fit " FORETONE_SCENES "/boards/maple-plank.toml --replace ";
    CHECK(holds(run(fit + "--units us").out, "0.319 mil"));  // the library's build of a sprayed coat, 8.11 um
    CHECK(holds(run(fit).out, "8.11 um"));
    // What is laid on is said both ways, and the books in ounces.
    const auto books =
        run("plan " FORETONE_SCENES "/stool-maple.toml --finish 'dye, shellac, waterborne' --area 12ft2").out;
    CHECK(holds(books, "oz/100 ft² of"));
    CHECK_FALSE(holds(books, "g/m2"));
}
