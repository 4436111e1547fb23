#include <catch2/catch.hpp>

#include <random>
#include <stdexcept>

#include "foretone/layout/text.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using layout::Face;
using layout::fit_text;
using layout::text_width;
using layout::TextStyle;
using layout::wrap_text;
using test::Near;

namespace {

const TextStyle body{Face::regular, 18};

std::string joined(const std::vector<std::string>& lines) {
    std::string out;
    for (const std::string& line : lines) {
        out += (out.empty() ? "" : " ") + line;
    }
    return out;
}

/// Words of Latin, Greek and Cyrillic letters, some far too long.
std::string seeded_text(std::uint64_t seed) {
    static const std::vector<std::string> letters = {"a",        "W",        "i",        "\xC3\xBC",
                                                     "\xCE\x94", "\xD0\x96", "\xC2\xB2", "\xE6\xBC\x86"};
    std::mt19937_64 random(seed);
    std::string out;
    const auto words = 1 + (random() >> 33) % 12;
    for (std::uint64_t w = 0; w < words; ++w) {
        out += w == 0 ? "" : " ";
        const auto count = 1 + (random() >> 33) % ((random() >> 33) % 9 == 0 ? 60 : 9);
        for (std::uint64_t i = 0; i < count; ++i) {
            out += letters[(random() >> 33) % letters.size()];
        }
    }
    return out;
}

}  // namespace

TEST_CASE("widths scale with size, and a heavier face is wider") {
    const std::string text = "amber shellac, coat 2";
    CHECK_THAT(text_width(text, {Face::regular, 36}), Near(2 * text_width(text, body), 1e-4));  // the scale is a float
    CHECK(text_width(text, {Face::bold, 18}) > text_width(text, body));
    CHECK(text_width("", body) == 0);
}

TEST_CASE("pairs are kerned and digits share one width") {
    CHECK(text_width("AV", body) < text_width("A", body) + text_width("V", body));
    CHECK(text_width("To", body) < text_width("T", body) + text_width("o", body));
    for (const char* digit : {"1", "2", "3", "4", "5", "6", "7", "8", "9"}) {
        CHECK(text_width(digit, body) == text_width("0", body));
    }
}

TEST_CASE("the typeface has the letters and signs boards need") {
    const double box = text_width("\xE6\xBC\x86", body);  // a Han character: none in this face, so the box
    CHECK(box > 0);
    for (const Face face : {Face::regular, Face::bold}) {
        const double empty_box = text_width("\xE6\xBC\x86", {face, 400});
        for (const char* sign :
             {"\xCE\x94", "\xC3\x97", "\xC2\xB5", "\xC2\xB2", "\xC2\xB7", "\xE2\x80\x93", "\xC2\xB0", "*",
              "\xE2\x80\xA6", "\xE2\x88\x92", "\xE2\x80\xA0", "\xC2\xB1", "\xC3\x9F", "\xC5\x91", "\xD0\x96"}) {
            INFO(sign);
            CHECK(text_width(sign, {face, 400}) != empty_box);
        }
    }
}

TEST_CASE("what is not UTF-8 measures as one box a byte, and invisible signs take no room") {
    const double box = text_width("\xE6\xBC\x86", body);
    CHECK_THAT(text_width("\xFF", body), Near(box, test::closed_form));
    CHECK_THAT(text_width("\xC0\xAF", body), Near(text_width("\xFF\xFF", body), test::closed_form));  // overlong
    CHECK_THAT(text_width("\xED\xA0\x80", body),
               Near(text_width("\xFF\xFF\xFF", body), test::closed_form));                            // surrogate
    CHECK_THAT(text_width("\xE2\x80", body), Near(text_width("\xFF\xFF", body), test::closed_form));  // cut off
    CHECK(text_width("a\xC2\xAD\xE2\x80\x8B"
                     "b",
                     body) == text_width("ab", body));
    CHECK(text_width("a\tb", body) == text_width("a b", body));
}

TEST_CASE("a shortened text fits, ends in an ellipsis and begins as the whole does") {
    const std::string text = "honey-dye 3 : russet-dye 1 : water 36";
    CHECK(fit_text(text, body, 1000) == text);
    for (int width = 20; width < 300; width += 7) {
        const std::string fitted = fit_text(text, body, width);
        INFO(width);
        REQUIRE(text_width(fitted, body) <= width);
        REQUIRE(fitted.size() >= 3);
        REQUIRE(fitted.substr(fitted.size() - 3) == "\xE2\x80\xA6");
        REQUIRE(text.rfind(fitted.substr(0, fitted.size() - 3), 0) == 0);
    }
    CHECK(fit_text(text, body, 3).empty());
}

TEST_CASE("wrapped lines are never wider than asked and lose nothing but spaces") {
    double widest = 0;
    std::size_t lost = 0, too_many = 0;
    for (std::uint64_t seed = 0; seed < 300; ++seed) {
        const std::string text = seeded_text(seed);
        const double width = 40 + double(seed % 150);
        const auto lines = wrap_text(text, body, width, 1000);
        std::string letters, expected;
        for (const std::string& line : lines) {
            widest = test::worst_of(widest, text_width(line, body) - width);
            for (const char c : line) {
                letters += c == ' ' ? std::string() : std::string(1, c);
            }
        }
        for (const char c : text) {
            expected += c == ' ' ? std::string() : std::string(1, c);
        }
        lost += letters != expected;
        const auto few = wrap_text(text, body, width, 2);
        too_many += few.size() > 2;
        if (lines.size() > 2) {
            lost += few.size() != 2 || few.back().find("\xE2\x80\xA6") == std::string::npos;
            widest = test::worst_of(widest, text_width(few.back(), body) - width);
        }
    }
    CHECK(widest <= 0);
    CHECK(lost == 0);
    CHECK(too_many == 0);
}

TEST_CASE("words stay whole where they fit, and empty text has no lines") {
    CHECK(joined(wrap_text("  two   coats,\nbrushed ", body, 1000, 3)) == "two coats, brushed");
    CHECK(wrap_text("two coats", body, text_width("coats", body) + 1, 5) == std::vector<std::string>{"two", "coats"});
    CHECK(wrap_text("", body, 100, 3).empty());
    CHECK(wrap_text(" \n ", body, 100, 3).empty());
    CHECK_THROWS_AS(wrap_text("a", body, 100, 0), std::invalid_argument);
    CHECK_THROWS_AS(text_width("a", {Face::regular, 2}), std::invalid_argument);
}
