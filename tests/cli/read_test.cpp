/// `foretone read` with a stand-in that speaks as spotread 2.3.1 does (tests/data/stand-ins): no instrument is needed.
#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "cli/program.hpp"

using namespace foretone::test;

namespace {

// The keys a person presses, one a line; the stand-in's fault.
Run sitting(const std::string& names, const std::string& keys, const std::string& fault = "",
            const std::string& more = "") {
    setenv("SPOTREAD_FAULT", fault.c_str(), 1);
    write("keys", keys);
    auto out =
        run("read boards.txt --program " FORETONE_TEST_DATA "/stand-ins/spotread " + names + " " + more + " < keys");
    unsetenv("SPOTREAD_FAULT");
    return out;
}

std::string kept() {
    std::ifstream in(folder() + "/boards.txt");
    std::stringstream text;
    text << in.rdbuf();
    return text.str();
}

bool spoke(const std::string& text, const std::string& due) { return text.find(due) != std::string::npos; }

const std::string three = "--name bare --name dyed --name 'one coat'";

}  // namespace

TEST_CASE("boards are read one after another, each under its name, after the instrument's tile") {
    fresh_folder();
    const auto r = sitting(three, "\n\n\n\n");
    INFO(r.out << r.err);
    REQUIRE(r.status == 0);
    CHECK(spoke(r.out,
                "The instrument asks: Place the instrument on its reflective white reference S/N 12345. Then press"));
    CHECK(spoke(r.out, "1 of 3: bare"));
    CHECK(spoke(r.out, "3 of 3: one coat"));
    CHECK_FALSE(spoke(r.out, "ESC"));  // spotread's keys are not the person's
    CHECK(spoke(r.out, "3 readings kept in boards.txt"));
    // The stand-in's second reading.
    const auto color = run("color boards.txt --sample dyed --json -");
    INFO(color.err);
    REQUIRE(color.status == 0);
    CHECK(run("color boards.txt --sample 'one coat'").status == 0);
}

TEST_CASE("a reading by the instrument's own button needs no key") {
    fresh_folder();
    const auto r = sitting("--name bare", "\n", "button");
    INFO(r.out << r.err);
    CHECK(r.status == 0);
    CHECK(spoke(kept(), "name: bare\nSpectrum from 400"));
}

TEST_CASE("a spot that was not read is told in plain words and read again") {
    fresh_folder();
    const auto r = sitting(three, "\n\n\n\n\n\n", "misread");
    INFO(r.out << r.err);
    CHECK(r.status == 0);
    CHECK(spoke(r.out, "Not read: Spot read failed due to misread (Measurement is inconsistent). Set it flat"));
    CHECK(spoke(r.out, "3 readings kept"));
}

TEST_CASE("b reads the one before again, l leaves one out, q ends; what was read stays") {
    fresh_folder();
    const auto r = sitting(three, "\n\nb\n\nl\nq\n");
    INFO(r.out << r.err);
    CHECK(r.status == 0);
    CHECK(spoke(r.out, "1 reading kept"));
    // The second spot of the stand-in, in place of the first.
    CHECK(spoke(kept(), "name: bare\n"));
    CHECK(spoke(kept(), "D50 Lab: 59.35 8.60 16.93"));
    CHECK_FALSE(spoke(kept(), "81.38"));
    CHECK_FALSE(spoke(kept(), "dyed"));
}

TEST_CASE("a later sitting adds to the file, and a name that is there is refused") {
    fresh_folder();
    REQUIRE(sitting("--name bare", "\n\n").status == 0);
    const auto twice = sitting("--name bare", "\n\n");
    CHECK(twice.status == 1);
    CHECK(spoke(twice.err, "[reading-known]"));
    const auto more = sitting("--name dyed", "\n\n", "", "--json read.json");
    REQUIRE(more.status == 0);
    CHECK(spoke(kept(), "name: bare\n"));
    CHECK(spoke(kept(), "name: dyed\n"));
    std::ifstream in(folder() + "/read.json");
    const auto told = nlohmann::json::parse(in);
    CHECK(told["readings"].size() == 1);
    CHECK(told["readings"][0]["light"] == "D50");
    CHECK(told["readings"][0]["Lab"][0] == 81.38);                                         // the stand-in's first spot
    CHECK(told["readings"][0]["reflectance"]["values"][0].get<double>() == Approx(0.20));  // 20.00 %
}

TEST_CASE("an instrument that is not there, or leaves, is told; what was read before stays") {
    fresh_folder();
    const auto none = sitting("--name bare", "\n\n", "none");
    CHECK(none.status == 1);
    CHECK(spoke(none.err, "no instrument detected"));
    CHECK_FALSE(exists("boards.txt"));
    const auto cut = sitting(three, "\n\n\n\n", "cut");
    CHECK(cut.status == 1);
    CHECK(spoke(cut.err, "communication problem. [instrument-ended]"));
    CHECK(spoke(cut.out, "1 reading kept in boards.txt"));
    const auto missing = run("read x.txt --name bare --program ./no-such-program");
    CHECK(missing.status == 1);
    CHECK(spoke(missing.err, "[instrument-missing]"));
    CHECK(spoke(missing.err, "argyll"));
}

TEST_CASE("a file of other readings, and a name twice, are refused before the instrument is asked") {
    fresh_folder();
    write("boards.txt", "wavelength_nm,reflectance\n400,0.1\n420,0.1\n");
    CHECK(spoke(sitting("--name bare", "\n\n").err, "[readings-other]"));
    write("boards.txt", "");
    CHECK(sitting("--name ''", "\n\n").status != 0);
    CHECK(spoke(run("read new.txt --name a --name a --program true").err, "named twice"));
}
