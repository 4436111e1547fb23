// What CSV and lists have in common: the separator, and lines that state a condition.

#include "../../src/measure/separated.hpp"

#include <catch2/catch.hpp>

using namespace foretone;
using measure::said_in;
using measure::said_in_cells;

namespace {

char separator_in(const std::string& text) {
    measure::Notes notes;
    measure::Lines lines;
    measure::clean(text, {}, notes, lines);
    return measure::separator_of(lines);
}

// "key=value@column", or "nothing".
std::string said(const std::string& text) {
    const auto s = said_in({text, 3});
    return s ? s->key + "=" + s->value.text + "@" + std::to_string(s->value.column) : "nothing";
}

std::string said_by(const std::vector<std::string>& texts) {
    std::vector<measure::Cell> cells;
    for (const auto& t : texts) cells.push_back({t, 3, cells.size() + 1, false});
    const auto s = said_in_cells(cells);
    return s ? s->key + "=" + s->value.text : "nothing";
}

}  // namespace

TEST_CASE("the separator is what most lines hold: tab before semicolon before comma") {
    CHECK(separator_in("name,L,a,b\nmaple,80,5,20\n") == ',');
    CHECK(separator_in("name;L;a;b\nmaple;80;5;20\n") == ';');
    CHECK(separator_in("name\tL\ta\tb\nmaple\t80\t5\t20\n") == '\t');
    CHECK(separator_in("name;L;a;b\nmaple;80,1;5,2;20,3\n") == ';');        // commas are decimal signs here
    CHECK(separator_in("name\tL; a\nmaple\t80; 5\noak\t60; 7\n") == '\t');  // both in all lines: the tab
    CHECK(separator_in("name L a b\nmaple 80 5 20\n") == ',');              // none at all
}

TEST_CASE("a separator counts in more than half of the lines, and not inside quotes, comments or stated conditions") {
    CHECK(separator_in("a;b\nc,d\ne,f\n") == ',');  // one of three
    CHECK(separator_in("a;b\nc;d\ne,f\n") == ';');  // two of three
    CHECK(separator_in("a;b\nc,d\n") == ',');       // half is not most
    CHECK(separator_in("\"a;b\",c\n\"d;e\",f\n") == ',');
    CHECK(separator_in("# a;b;c\n# d;e;f\n# g;h;i\nj,k\n") == ',');
    CHECK(separator_in("light: D65;;\nobserver: 2deg;;\nn,L\nmaple,80\n") == ',');
    CHECK(separator_in("\n\n\n\na;b\n") == ';');  // empty lines are no lines
}

TEST_CASE("a condition is a key of letters, a colon or an equals sign, and a value") {
    CHECK(said("light: D65") == "light=D65@7");
    CHECK(said("Observer = 10 deg") == "Observer=10 deg@11");
    CHECK(said("  measuring geometry:45/0  ") == "measuring geometry=45/0@22");
    CHECK(said("light:\"CIE A\"") == "light=CIE A@7");
    CHECK(said("light: D65;;;") == "light=D65@7");
    CHECK(said("light: D65, ,\t") == "light=D65@7");
    CHECK(said("note: a: b") == "note=a: b@6");  // the first mark divides
}

TEST_CASE("what only looks like a condition is none") {
    for (const char* line : {"light", "light:", "light: ;;", ": D65", "R400: 0.3", "12:30", "maple,80,5,20", "a1=2", "",
                             "a key of far more than forty letters is no key at all: x"}) {
        INFO(line);
        CHECK(said(line) == "nothing");
    }
}

TEST_CASE("in cells a condition stands in the first alone, or in the first two") {
    CHECK(said_by({"light: D65", "", ""}) == "light=D65");
    CHECK(said_by({"light", "D65", ""}) == "light=D65");
    CHECK(said_by({"light:", "D65"}) == "light=D65");
    CHECK(said_by({"light =", "D65"}) == "light=D65");
    CHECK(said_by({}) == "nothing");
    CHECK(said_by({"", "D65", ""}) == "nothing");           // no key
    CHECK(said_by({"light", "", "D65"}) == "nothing");      // not beside it
    CHECK(said_by({"light", "D65", "2deg"}) == "nothing");  // a row of a table
    CHECK(said_by({"R400", "0.3"}) == "nothing");
}
