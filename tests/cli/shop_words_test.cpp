/// The command line in the shop's own words: units, paper, nearest verbs and options, a first scene.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "cli/program.hpp"

using namespace foretone::test;

namespace {

const std::string us_pine = "plan " FORETONE_SCENES "/wash-coat-pine.toml ";

std::string text_in(const std::string& name) {
    std::ifstream in(folder() + "/" + name);
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

bool shows(const std::string& text, const std::string& due) { return text.find(due) != std::string::npos; }

}  // namespace

TEST_CASE("a plan speaks the units of its area, of the scene, or those it is told") {
    fresh_folder();
    const auto us = run(us_pine + "--area '27 sq ft' --start '3/2/2026 8:00 AM'").out;
    for (const char* due : {"27 ft²", "68 °F", " mil", "fl oz", "Mon 3/2/2026 8:00 AM", "ft²/gal"}) {
        INFO(due);
        CHECK(shows(us, due));
    }
    for (const char* no : {" mL", " um", "µm", " C ·", "m2"}) {
        INFO(no);
        CHECK_FALSE(shows(us.substr(0, us.find("where it goes")), no));
    }
    const auto metric = run(us_pine + "--area '27 sq ft' --units metric").out;
    CHECK(shows(metric, "2.51 m²"));
    CHECK(shows(metric, "20 °C"));
    CHECK(shows(run(us_pine + "--area 2.5m2 --units US").out, "26.9 ft²"));
    CHECK(run(us_pine + "--area 2m2 --units furlong").status == 1);
}

TEST_CASE("every card is on the paper asked for, in any case, and on Letter where units are US") {
    fresh_folder();
    const auto card = [](const std::string& more) {
        run(us_pine + more);
        return text_in("out/wash-coat-pine-wash-coat-waterborne-card.html");
    };
    CHECK(shows(card("--area 2m2"), "size:A4"));
    CHECK(shows(card("--area 20ft2"), "size:letter"));
    CHECK(shows(card("--area 20ft2 --paper A4"), "size:A4"));
    CHECK(shows(card("--area 2m2 --paper LETTER"), "size:letter"));
    CHECK(run(us_pine + "--area 2m2 --paper a5").err.find("neither a4 nor letter") != std::string::npos);
}

TEST_CASE("what is mixed and what is bought are one sum, in figures that can be poured") {
    fresh_folder();
    for (const char* more : {"--area 2.5m2", "--area 27ft2", "--area 11m2"}) {
        INFO(more);
        const auto j = nlohmann::json::parse(run(us_pine + std::string(more) + " --json -").out);
        std::map<std::string, double> mixed;
        for (const auto& s : j.at("steps"))
            for (const auto& m : s.at("measures")) mixed[m.at("material")] += m.at("measured").get<double>();
        for (const auto& b : j.at("buy"))
            CHECK(b.at("amount").get<double>() == Approx(mixed[b.at("material").get<std::string>()]));
    }
}

TEST_CASE("a misspelt verb or option is told the nearest, and usage stays usage") {
    fresh_folder();
    const std::pair<const char*, const char*> slips[] = {
        {"preveiw x.toml", "there is no verb 'preveiw'. Did you mean preview"},
        {"preview x.toml --ligth D65", "preview has no option --ligth."},
        {"color x.csv --ligth D65", "color has no option --ligth. Did you mean --light"},
        {"plan x.toml --aera 3", "plan has no option --aera. Did you mean --area"},
        {"mix ct 3", "mix has no 'ct'. Did you mean cut"},
        {"mix cut 2lb --volum 1L", "mix cut has no option --volum. Did you mean --volume"},
        {"plan x.toml", "plan: --area is required"},
        {"", "say what to do"}};
    for (const auto& [line, due] : slips) {
        INFO(line);
        const auto r = run(line);
        INFO(r.err);
        CHECK(r.status == 2);
        CHECK(r.err.find("error: ") == 0);
        CHECK(shows(r.err, due));
        CHECK(shows(r.err, "--help' lists what there is"));
    }
}

TEST_CASE("new writes a first scene that previews in one try, and never over another file") {
    fresh_folder();
    const auto made =
        run("new first.toml --wood cherry --finish 'orange-shellac x2, oil-varnish x3' --finish tung --light D65 "
            "--target '#8a4b20' --units us </dev/null");
    INFO(made.err);
    REQUIRE(made.status == 0);
    CHECK(shows(made.out, "foretone preview first.toml"));
    const auto text = text_in("first.toml");
    for (const char* due :
         {"use = \"cherry\"", "coats = 3", "units = \"us\"", "srgb = \"#8a4b20\"", "# like = \"cherry\""})
        CHECK(shows(text, due));
    CHECK(run("preview first.toml --no-pictures").status == 0);
    CHECK(shows(run("preview first.toml --no-pictures").err, "[wood-fresh]"));
    CHECK(run("new first.toml </dev/null").status == 1);
    CHECK(text_in("first.toml") == text);
    CHECK(run("new other.toml --wood chery </dev/null").err.find("cherry") != std::string::npos);
    CHECK_FALSE(exists("other.toml"));
    CHECK(run("new </dev/null").status == 0);  // nobody to ask: the usual, in my-scene.toml
    CHECK(exists("my-scene.toml"));
}

TEST_CASE("the cautions of the materials are told in full, those of every job by name, and all on demand") {
    fresh_folder();
    const auto usual = run("mix cut 2lb").out, all = run("mix cut 2lb --cautions").out;
    CHECK(shows(usual, "flammable: Solvent vapor burns"));
    CHECK(shows(usual, "always: data-sheet"));
    CHECK_FALSE(shows(usual, "EN 71-3"));
    CHECK(shows(all, "EN 71-3 and ASTM F963"));
    const auto quiet = run("mix cut 2lb --quiet");
    CHECK(quiet.out.empty());
    CHECK(quiet.err.empty());
}
