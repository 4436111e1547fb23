#include "foretone/base/text.hpp"

#include <clocale>
#include <vector>

#include <catch2/catch.hpp>

using namespace foretone::base;
using Words = std::vector<std::string>;

TEST_CASE("Words are joined with one thing between and another before the last", "[text]") {
    CHECK(joined(Words{}).empty());
    CHECK(joined(Words{"a"}, ", ", " or ") == "a");
    CHECK(joined(Words{"a", "b"}, ", ", " or ") == "a or b");
    CHECK(joined(Words{"a", "b", "c"}, ", ", " and ") == "a, b and c");
    CHECK(joined(Words{"", "b", ""}, ";") == ";b;");
}

TEST_CASE("Split and joined undo each other", "[text]") {
    for (const std::string text : {"", ",", "a", "a,b", ",a,,b,", "one, two"}) {
        CAPTURE(text);
        CHECK(joined(split(text, ','), ",") == text);
    }
    CHECK(split("a,b,,c", ',') == Words{"a", "b", "", "c"});
    CHECK(split("", ',') == Words{""});
}

TEST_CASE("Blanks go from the ends alone", "[text]") {
    CHECK(trimmed(" \ta b\t ") == "a b");
    CHECK(trimmed("   ").empty());
    CHECK(trimmed("").empty());
    CHECK(trimmed("\na\n") == "\na\n");
    CHECK(trimmed("--a-b--", "-") == "a-b");
}

TEST_CASE("Letters are those of ASCII; other bytes of UTF-8 stay", "[text]") {
    std::setlocale(LC_ALL, "tr_TR.UTF-8");  // whose capital of i is another letter; no matter if the machine has none
    CHECK(lower("HARD Maple I ÄÖ 12") == "hard maple i ÄÖ 12");
    CHECK(upper("hard Maple i äö 12") == "HARD MAPLE I äö 12");
    std::setlocale(LC_ALL, "C");
    for (int c = 0; c < 256; ++c) {
        const char one = static_cast<char>(c);
        const bool letter = (one >= 'a' && one <= 'z') || (one >= 'A' && one <= 'Z');
        CAPTURE(c);
        CHECK((lower(one) != upper(one)) == letter);
        CHECK(lower(upper(one)) == lower(one));
    }
}

TEST_CASE("Replacing goes from left to right and never looks at what it wrote", "[text]") {
    CHECK(replaced("aaa", "a", "aa") == "aaaaaa");
    CHECK(replaced("aaa", "aa", "b") == "ba");
    CHECK(replaced("x.y.z", ".", ",") == "x,y,z");
    CHECK(replaced("", ".", ",").empty());
    CHECK(replaced("no dot", ".", "") == "no dot");
}

TEST_CASE("No text leaves its tag or its attribute", "[text]") {
    CHECK(xml_escaped("a<b>&\"c\" 'd'") == "a&lt;b&gt;&amp;&quot;c&quot; &#39;d&#39;");
    CHECK(xml_escaped(std::string("tab\tnull\0end", 12)) == "tab null end");
    CHECK(xml_escaped("Ä — ok") == "Ä — ok");
}

TEST_CASE("A quoted string is a TOML basic string", "[text]") {
    // TOML 1.0, section String: quotation mark, backslash and control characters other than tab are escaped.
    CHECK(toml_quoted("plain") == "\"plain\"");
    CHECK(toml_quoted("say \"no\" \\") == R"("say \"no\" \\")");
    CHECK(toml_quoted("two\nlines\t.") == R"("two\nlines\t.")");
    CHECK(toml_quoted("bell\x07 del\x7f") == R"("bell\u0007 del\u007f")");
}

TEST_CASE("a text on one line has no control characters, and all else as it was") {
    CHECK(one_line("a\nb\tc\x1b[1m\xC2\x9B"
                   "d") == "a b c [1m d");
    CHECK(one_line("\xE2\x80\xAE"
                   "Öl 木 “x”") == " Öl 木 “x”");
    CHECK(one_line("") == "");
}
