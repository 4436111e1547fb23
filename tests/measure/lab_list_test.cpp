// A list of names and three numbers: which separator, what is no such line, what is told.

#include <catch2/catch.hpp>

#include "foretone/base/number.hpp"
#include "foretone/measure/lab_list.hpp"
#include "foretone/measure/read.hpp"
#include "measure/refusals.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

const std::string conditions_head = "light: D65\nobserver: 2deg\ngeometry: 45/0\n";

std::string list_told(const std::string& lines, const measure::Options& options = {}) {
    std::string out;
    const auto refused = refused_as([&] {
        for (const auto& r : measure::read_lab_list(conditions_head + lines, options).readings)
            out += "[" + r.name + "] " + base::shortest(r.lab->l) + " " + base::shortest(r.lab->a) + " " +
                   base::shortest(r.lab->b) + " line " + std::to_string(r.line) + "\n";
    });
    return refused == "read" ? out : refused;
}

std::string list_notes(const std::string& lines) {
    return note_lines(measure::read_lab_list(conditions_head + lines).notes);
}

}  // namespace

TEST_CASE("each separator is chosen only if every line is a reading by it") {
    const std::string due = "[a b] 80 4 18 line 4\n[c] 70 5 20 line 5\n";
    CHECK(list_told("a b\t80\t4\t18\nc\t70\t5\t20\n") == due);
    CHECK(list_told("a b;80;4;18\nc;70;5;20\n") == due);
    CHECK(list_told("a b,80,4,18\nc,70,5,20\n") == due);
    CHECK(list_told("a b 80 4 18\nc 70 5 20\n") == due);
    CHECK(list_told("a b;80;4;18\nc 70 5 20\n") == "5:1 lab-line 'c 70 5 20'");
    CHECK(list_told("a,b 80 4 18\nc 70 5 20\n") == "[a,b] 80 4 18 line 4\n[c] 70 5 20 line 5\n");
    CHECK(list_told("a b;80;4;18;5\n") == "4:1 lab-line 'a b;80;4;18;5'");
    CHECK(list_told("a b 80 4\n") == "4:1 lab-line 'a b 80 4'");
    CHECK(list_told("a 80 4 18\nb 70 5 dark\nc 60 5 20\n") == "5:1 lab-line 'b 70 5 dark'");
}

TEST_CASE("a heading is left out, a list of a heading alone is none") {
    CHECK(list_told("name L* a* b*\nx 80 4 18\n") == "[x] 80 4 18 line 5\n");
    CHECK(list_told("name;L;a;b\nx;80;4;18\n") == "[x] 80 4 18 line 5\n");
    CHECK(list_told("name L a b\n") == "0:0 readings-none ''");
    CHECK(list_told("# only words\n") == "0:0 readings-none ''");
    CHECK(list_told("name a L b\nx 80 4 18\n") == "4:1 lab-line 'name a L b'");
}

TEST_CASE("whole numbers between commas could be decimal commas, and are refused") {
    CHECK(list_told("82,1,3\n") == "4:1 lab-ambiguous '82,1,3'");
    CHECK(list_told("80.5,1,3\n") == "[1] 80.5 1 3 line 4\n");
    CHECK(list_told("bare,82,1,3\n") == "[bare] 82 1 3 line 4\n");
    CHECK(list_told("82;1;3\n") == "[1] 82 1 3 line 4\n");
    CHECK(list_told("82,1 1,5 3,2\n") == "[1] 82.1 1.5 3.2 line 4\n");
}

TEST_CASE("what was mended in a list is told once, with its place") {
    CHECK(list_notes("a;80;4;18;\nb;70;5;20;\n") == "4:1 separators-trailing");
    CHECK(list_notes("80 4 18\n70 5 20\n") == "4:1 name-missing");
    CHECK(list_notes("a 80,5 4 18\n") == "4:3 decimal-comma");
    CHECK(list_notes("a 80 4 18\n").empty());
}

TEST_CASE("a comment states a condition like a line of its own, and the last one said counts") {
    const auto r = measure::read_lab_list("# light: A\n# observer: 10deg\n# shop: mine\nx 80 4 18\n");
    CHECK((r.readings[0].light == "A" && r.readings[0].observer == "10deg" && !r.readings[0].geometry));
    CHECK(r.keywords.at("shop") == "mine");
    CHECK(refused_as([] { measure::read_lab_list("light: A\nx 80 4 18\n"); }) == "2:1 light-missing 'Lab'");
    CHECK(list_told("light: A\nx 80 4 18\n") == "[x] 80 4 18 line 5\n");
}

TEST_CASE("a list of too many values is refused before it is kept") {
    measure::Options few;
    few.most_fields = 100;
    CHECK(list_told("a 80 4 18\nb 70 5 20\nc 60 5 20\n", few).find("[c] 60 5 20 line 6") != std::string::npos);
    few.most_fields = 11;
    CHECK(list_told("a 80 4 18\nb 70 5 20\nc 60 5 20\n", few) == "6:1 fields-too-many '12'");
}

TEST_CASE("a text of none of the formats is refused with all of them named, a damaged one by its own reader") {
    CHECK(refused_as([] { measure::read("hello world\n"); }) == "1:1 format-unknown 'hello world'");
    CHECK(refusal_text([] { measure::read("\n  hello world\n"); }).find("begins 'hello world'") != std::string::npos);
    for (const char* named : {"CGATS", "CSV", "L* a* b*"})
        CHECK(refusal_text([] { measure::read("hello\n"); }).find(named) != std::string::npos);
    CHECK(measure::format_of("BEGIN_DATA_FORMAT\n") == measure::Format::cgats);
    CHECK(measure::format_of("ISO28178\nwhat\n") == measure::Format::cgats);
    CHECK(measure::format_of("what\nCGATS.17\n") == measure::Format::unknown);  // the word opens a file or says nothing
    CHECK(measure::format_of("400,0.3\n410,0.4\n") == measure::Format::csv);
    CHECK(measure::format_of("400,0.3\nwords\n410,0.4\n") == measure::Format::unknown);
    CHECK(measure::format_of("PK\x03\x04") == measure::Format::unknown);
    // A heading beyond the lines that are looked at does not count.
    std::string late;
    for (int i = 0; i < 200; ++i) late += "words\n";
    CHECK(measure::format_of(late + "name L a b\n") == measure::Format::unknown);
    CHECK(measure::format_of(late.substr(6) + "name L a b\n") == measure::Format::lab_list);
}
