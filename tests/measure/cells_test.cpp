// Lines to cells, and cells to numbers: quotes as CSV has them (RFC 4180), numbers as people write them.

#include "../../src/measure/cells.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "foretone/base/number.hpp"
#include "measure/refusals.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// Cells between bars, a quoted one in brackets; or what was refused.
std::string cells_at(const std::string& text, char separator, std::string* notes = nullptr) {
    measure::Notes heard;
    measure::Budget budget(100);
    std::string out;
    const auto refused = refused_as([&] {
        for (const auto& c : separator == ' ' ? measure::split_at_blanks({text, 7}, heard, budget)
                                              : measure::split_at({text, 7}, separator, heard, budget))
            out += (out.empty() ? "" : "|") + (c.quoted ? "[" + c.text + "]" : c.text) + "@" + std::to_string(c.column);
    });
    if (notes) *notes = note_lines(heard.list());
    return refused == "read" ? out : refused;
}

// A cell as RFC 4180 writes it: in quotes, quotes within doubled.
std::string csv_quoted(const std::string& text) {
    std::string out = "\"";
    for (const char c : text) out += c == '"' ? "\"\"" : std::string(1, c);
    return out + "\"";
}

std::string number_told(const std::string& text) {
    const auto n = measure::Numbers::look(text);
    if (!n) return "none";
    return base::shortest(n->value) + (n->comma ? " comma" : "") + (n->point ? " point" : "") +
           (n->odd_minus ? " odd" : "") + (n->percent_sign ? " %" : "");
}

}  // namespace

TEST_CASE("cells keep their text and their column, with blanks around them left out") {
    CHECK(cells_at("a,b,c", ',') == "a@1|b@3|c@5");
    CHECK(cells_at("  a b ,  c", ',') == "a b@3|c@10");
    CHECK(cells_at("a,,", ',') == "a@1|@3|@4");
    CHECK(cells_at("", ',') == "@1");
    CHECK(cells_at("a;b,c", ';') == "a@1|b,c@3");
    CHECK(cells_at("a\t\tb", '\t') == "a@1|@3|b@4");
    CHECK(cells_at("\xC3\xA9\xC3\xA9,x", ',') == "\xC3\xA9\xC3\xA9@1|x@4");  // columns count characters, not bytes
    CHECK(cells_at("a  b\tc # said", ' ') == "a@1|b@4|c@6");
    CHECK(cells_at("a#b", ' ') == "a#b@1");
    CHECK(cells_at("# all of it", ' ').empty());
}

TEST_CASE("quotes are those of CSV, and of a file that was quoted twice") {
    CHECK(cells_at("\"a,b\",c", ',') == "[a,b]@1|c@7");
    CHECK(cells_at("\"say \"\"so\"\"\",c", ',') == "[say \"so\"]@1|c@14");
    CHECK(cells_at("\"\",x", ',') == "[]@1|x@4");
    CHECK(cells_at("\"x\"  , y", ',') == "[x]@1|y@8");
    CHECK(cells_at("plain \"mid\" quote,x", ',') == "plain \"mid\" quote@1|x@19");
    std::string notes;
    CHECK(cells_at("\"\"\"twice\"\"\",x", ',', &notes) == "[twice]@1|x@13");
    CHECK(notes == "7:1 quotes-doubled");
    CHECK(cells_at("\"\"even\"\",x", ',', &notes) == "[even]@1|x@10");
    CHECK(notes == "7:1 quotes-doubled");
    CHECK(cells_at("a,\"open", ',') == "7:3 quote-open '\"open'");
    CHECK(cells_at("\"a\"b,c", ',') == "7:1 quote-after 'a'");
    CHECK(cells_at("\xE2\x80\x9Chard maple\xE2\x80\x9D 5", ' ', &notes) == "[hard maple]@1|5@14");
    CHECK(notes == "7:1 quotes-curly");
}

TEST_CASE("what was quoted as CSV quotes is read back, whatever it holds") {
    std::mt19937_64 random(4);
    const std::string letters = "ab ,;\t\"#x\xC3\xA9";
    int twice = 0;
    for (int i = 0; i < 3000; ++i) {
        std::vector<std::string> cells;
        std::string line;
        for (std::uint64_t n = 1 + random() % 4; n > 0; --n) {
            std::string cell = "q";  // a text that is itself in quotes may have been quoted twice: told, see above
            for (std::uint64_t k = random() % 8; k > 0; --k) cell += letters[random() % 9];
            line += (cells.empty() ? "" : ",") + csv_quoted(cell);
            cells.push_back(cell);
        }
        measure::Notes notes;
        measure::Budget budget(100);
        const auto read = measure::split_at({line, 1}, ',', notes, budget);
        CAPTURE(line);
        REQUIRE(read.size() == cells.size());
        for (std::size_t k = 0; k < cells.size(); ++k) REQUIRE(read[k].text == cells[k]);
        twice += !notes.list().empty();
    }
    CHECK(twice == 0);
}

TEST_CASE("empty cells at the end are dropped, quoted ones are not") {
    measure::Notes notes;
    measure::Budget budget(100);
    auto cells = measure::split_at({"a,,\"\",,", 1}, ',', notes, budget);
    CHECK(measure::drop_empty_end(cells));
    CHECK(cells.size() == 3);
    CHECK_FALSE(measure::drop_empty_end(cells));
}

TEST_CASE("values are counted, and one more than allowed is refused") {
    measure::Notes notes;
    measure::Budget budget(5);
    CHECK(refused_as([&] { measure::split_at({"1,2,3", 1}, ',', notes, budget); }) == "read");
    CHECK(refused_as([&] { measure::split_at({"4,5", 2}, ',', notes, budget); }) == "read");
    CHECK(refused_as([&] { measure::split_at_blanks({"6", 3}, notes, budget); }) == "3:1 fields-too-many '6'");
}

TEST_CASE("numbers are read as people, instruments and spreadsheets write them") {
    const std::pair<const char*, const char*> written[] = {
        {"0.31", "0.31 point"},
        {" 0,31 ", "0.31 comma"},
        {"+0.31", "0.31 point"},
        {"-4", "-4"},
        {".5", "0.5 point"},
        {",5", "0.5 comma"},
        {"3.1e-1", "0.31 point"},
        {"3e2", "300"},
        {"31 %", "31 %"},
        {"31,5%", "31.5 comma %"},
        {"\xE2\x88\x92"
         "3.2",
         "-3.2 point odd"},
        {"\xE2\x80\x93"
         "3",
         "-3 odd"},
        {"\xE2\x80\x90"
         "3",
         "-3 odd"},
        {"\xE2\x80\x91"
         "3",
         "-3 odd"},
        {"1,234.5", "none"},
        {"1,2,3", "none"},
        {"+-1", "none"},
        {"--1", "none"},
        {"1e999", "none"},
        {"nan", "none"},
        {"inf", "none"},
        {"0x10", "none"},
        {"1 2", "none"},
        {"5nm", "none"},
        {"%", "none"},
        {"", "none"},
        {"O.5", "none"},
        {"1234567890123456789012345678901234567890", "1.234567890123457e+39"},
        {"12345678901234567890123456789012345678901", "none"},
    };
    for (const auto& [text, due] : written) {
        INFO(text);
        if (std::string(due).find("e+39") != std::string::npos)
            CHECK_THAT(measure::Numbers::look(text)->value / 1234567890123456789012345678901234567890.0,
                       Near(1, identity));
        else
            CHECK(number_told(text) == due);
    }
}

TEST_CASE("a number written in any of these ways is the number, over seeded values") {
    std::mt19937_64 random(8);
    double worst = 0;
    for (int i = 0; i < 2000; ++i) {
        const double value = std::ldexp(static_cast<double>(static_cast<std::int64_t>(random())), -50 - i % 20);
        std::string text = base::shortest(value);
        const bool percent = i % 3 == 0;
        if (i % 2 && text.find('e') == std::string::npos) std::replace(text.begin(), text.end(), '.', ',');
        if (i % 5 == 0 && text[0] == '-') text = "\xE2\x88\x92" + text.substr(1);
        const auto read =
            measure::Numbers::look((i % 7 == 0 && text[0] != '-' && i % 5 ? "+" : "") + text + (percent ? " %" : ""));
        CAPTURE(text);
        REQUIRE(read);
        CHECK(read->percent_sign == percent);
        worst = worst_of(worst, std::abs(read->value - value));
    }
    CHECK(worst == 0);
}

TEST_CASE("a file keeps to one decimal sign, and a cell that is no number is refused with its place") {
    const auto read_all = [](const std::vector<std::string>& texts) {
        measure::Notes notes;
        measure::Numbers numbers(notes);
        return refused_as([&] {
            for (std::size_t i = 0; i < texts.size(); ++i) numbers.read({texts[i], i + 1, 2, false}, "the value");
        });
    };
    CHECK(read_all({"1", "1.5", "2", "2.5"}) == "read");
    CHECK(read_all({"1", "1,5", "2", "2,5"}) == "read");
    CHECK(read_all({"1", "1.5", "2", "2,5"}) == "4:2 decimal-mixed '2,5'");
    CHECK(read_all({"1,5", "3", "2.5"}) == "3:2 decimal-mixed '2.5'");
    CHECK(read_all({""}) == "1:2 value-missing ''");
    CHECK(read_all({"NaN"}) == "1:2 number-not-finite 'NaN'");
    CHECK(read_all({"-inf"}) == "1:2 number-not-finite '-inf'");
    CHECK(read_all({"0.3x"}) == "1:2 number-bad '0.3x'");
    measure::Notes notes;
    measure::Numbers numbers(notes);
    numbers.read({"1,5", 3, 4, false}, "x");
    numbers.read({"1,6", 4, 4, false}, "x");
    numbers.read({"\xE2\x88\x92"
                  "1",
                  5, 4, false},
                 "x");
    CHECK(note_lines(notes.list()) == "3:4 decimal-comma\n5:4 minus-typographic");
    CHECK(notes.list()[0].text.find("(and 1 more of the kind)") != std::string::npos);
    CHECK(refusal_text([&] {
              numbers.read({"2.5", 6, 4, false}, "x");
          }) == "'2.5' has a decimal point, but '1,5' in line 3 a decimal comma; one file keeps to one of the two");
}
