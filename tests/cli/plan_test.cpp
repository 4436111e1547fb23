#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include "cli/program.hpp"

using namespace foretone::test;
using nlohmann::json;

namespace {

const std::string pine = "plan " FORETONE_SCENES "/wash-coat-pine.toml ";

}  // namespace

TEST_CASE("plan prints steps, times, purchases, label and cautions, and writes a card") {
    fresh_folder();
    const auto r =
        run(pine + "--area 27ft2 --temp 59F --humidity 60 --start '2026-03-02 08:00' --units metric --cautions");
    CHECK(r.status == 0);
    for (const char* due : {"2026-03-02 08:00", "together 54.50 EUR", "may let go of", "(conflicting)",
                            "label for the back of the board", "EN 71-3", "15 °C"}) {
        INFO(due);
        CHECK(r.out.find(due) != std::string::npos);
    }
    CHECK(exists("out/wash-coat-pine-wash-coat-waterborne-card.html"));
    CHECK(json::parse(run(pine + "--area 2.5m2 --json -").out).at("steps").size() == 2);
    CHECK(run(pine + "--area 2.5m2 --json -").out == run(pine + "--area 2.5m2 --json -").out);
}

TEST_CASE("a job's notes stand on the plan, its card and in the JSON of plan and preview") {
    fresh_folder();
    write("n.toml",
          "format = 1\nnotes = \"No <gloss>.\\nBy May.\"\n[wood]\nuse = \"ash\"\n[[finish]]\nname = \"a\"\n"
          "[[finish.step]]\nuse = \"waterborne-acrylic\"\nmethod = \"brush\"\n");
    const auto r = run("plan n.toml --area 1m2");
    CHECK(r.out.find("\nNo <gloss>.\nBy May.\n") != std::string::npos);
    CHECK(run("plan n.toml --area 1m2 --json - --quiet && cat out/n-a-card.html")
              .out.find("No &lt;gloss&gt;.<br>By May.") != std::string::npos);
    for (const char* verb : {"plan n.toml --area 1m2 --json -", "preview n.toml --no-pictures --json -"})
        CHECK(json::parse(run(verb).out).at("job_notes") == "No <gloss>.\nBy May.");
}

TEST_CASE("plan refuses impossible areas, air, times and finishes, and a schedule that fails") {
    fresh_folder();
    const std::pair<const char*, const char*> refused[] = {{"--area -2m2", "[amount-range]"},
                                                           {"--area 2acre", "[unit-unknown]"},
                                                           {"--area 0m2", "[amount-range]"},
                                                           {"--area 2m2 --humidity 130", "[humidity-range]"},
                                                           {"--area 2m2 --humidity -3", "[amount-range]"},
                                                           {"--area 2m2 --temp 90C", "[temperature-range]"},
                                                           {"--area 2m2 --temp 20K", "[unit-unknown]"},
                                                           {"--area 2m2 --start soon", "[start-syntax]"},
                                                           {"--area 2m2 --finish wash", "[finish-unknown]"}};
    for (const auto& [arguments, id] : refused) {
        INFO(arguments);
        const auto r = run(pine + arguments);
        CHECK(r.status == 1);
        CHECK(r.err.find("error: ") == 0);
        CHECK(r.err.find(id) != std::string::npos);
        CHECK_FALSE(exists("out"));
    }
    const auto linseed = run("plan " FORETONE_SCENES "/linseed-then-waterborne.toml --area 1m2");
    CHECK(linseed.status == 1);
    CHECK(linseed.err.find("[uncured-below]") != std::string::npos);
    CHECK(run(pine).status == 2);
}

TEST_CASE("preview prints the findings, how sure they are, and what mends them") {
    fresh_folder();
    const auto r = run("preview " FORETONE_SCENES "/linseed-then-waterborne.toml --no-pictures");
    CHECK(r.status == 0);
    CHECK(r.out.find(
              "failure: step 2: Waterborne acrylic over Boiled linseed oil of 2 days does not hold [uncured-below]") !=
          std::string::npos);
    CHECK(r.out.find("(practice)") != std::string::npos);
    CHECK(r.out.find("mend: wait until") != std::string::npos);
    CHECK(r.out.find("oily-rags:") != std::string::npos);
    const auto quiet = run("preview " FORETONE_SCENES "/linseed-then-waterborne.toml --no-pictures --quiet");
    CHECK(quiet.out.empty());
    CHECK(quiet.err.empty());
}

TEST_CASE("materials --show prints the order facts with their marks") {
    fresh_folder();
    const auto show = run("materials --show oil-polyurethane");
    CHECK(show.out.find("sticks_not_to.waxed-film") != std::string::npos);
    CHECK(show.out.find("conflicting: disputed") != std::string::npos);
    const auto order = json::parse(run("materials --show orange-shellac --json -").out).at("order");
    CHECK(order.at(0).at("value").at(0) == "alcohol");
    CHECK(order.back().at("key") == "cautions");
}
