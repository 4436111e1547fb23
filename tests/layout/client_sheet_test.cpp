#include "foretone/format/sheet_png.hpp"
#include "foretone/layout/client_sheet.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "foretone/format/sheet_html.hpp"
#include "support/pictures/layout_check.hpp"
#include "support/pictures/png_reader.hpp"
#include "support/sanitized.hpp"

using namespace foretone;
using layout::Paper;

namespace {

light::Image flat(const layout::BoardWanted& w) { return light::Image::filled(w.width, w.height, {180, 130, 80}); }

layout::ClientRow row(std::size_t words, bool fails) {
    const auto many = [&](const std::string& text) {
        std::string out;
        for (std::size_t i = 0; i < words; ++i) out += text + (i + 1 < words ? " " : "");
        return out;
    };
    layout::ClientRow r{many("dye,"),
                        many("satin"),
                        many("darker, redder,"),
                        many("Boards may differ, a lot,"),
                        many("1 Honey dye 4;"),
                        fails,
                        {}};
    for (auto& b : r.by_light) b = {{180, 130, 80}, true, std::vector<light::Code>(24, light::Code{170, 120, 70})};
    return r;
}

/// A sheet of `count` finishes whose texts are all about `words` words long.
layout::ClientSheet example(std::size_t count, std::size_t words, bool clear, bool fails) {
    layout::ClientSheet s;
    for (std::size_t i = 0; i < words; ++i)
        s.title += "bench ", s.wood += "maple ", s.facts += "computed ", s.vary += "grain ", s.shop += "memory ",
            s.notes += "ask ";
    s.boards = s.vary;
    s.date = s.title;
    s.lights = {s.title, "lamp"};
    s.bare = row(words, false);
    s.bare.by_light[0].plausible.clear();
    if (clear) s.clear = row(words, false);
    for (std::size_t i = 0; i < count; ++i) s.finishes.push_back(row(words, fails));
    if (fails) s.refusals.assign(count, s.title + s.title);
    s.mind.assign(words, s.title);
    // All that material::caution_text holds, at its length.
    s.cautions.assign(
        11, {"dust",
             std::string(
                 "Rags, paper and pads wet with drying oil heat up by themselves and catch fire. Spread each flat ") +
                 "outdoors until hard, or drown it in a lidded can."});
    return s;
}

}  // namespace

TEST_CASE("nothing on a client's sheet overlaps or leaves the page, whatever the finishes, the words and the paper") {
    const auto sizes = test::sanitized() ? std::vector<std::size_t>{1, 24} : std::vector<std::size_t>{0, 1, 5, 24};
    std::string fault;
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (std::size_t count = 1; count <= 4; ++count)
            for (const std::size_t words : sizes)
                for (const bool clear : {false, true})
                    for (const bool fails : {false, true}) {
                        const std::string found =
                            test::layout_fault(layout::lay_out(example(count, words, clear, fails), paper, flat));
                        if (!found.empty() && fault.empty())
                            fault =
                                std::to_string(count) + " finishes of " + std::to_string(words) + " words: " + found;
                    }
    CHECK(fault == "");
}

TEST_CASE("words without a space are broken, not let out of their room") {
    layout::ClientSheet s = example(4, 3, true, true);
    const std::string one(3000, 'W');
    s.title = s.wood = s.facts = s.vary = s.shop = s.notes = s.boards = s.date = s.lights[0] = s.lights[1] = one;
    for (auto& r : s.finishes) r.name = r.sheen = r.against = r.spread = r.recipe = one;
    s.bare.name = s.clear->name = one;
    s.mind.assign(9, one);
    s.refusals.assign(4, one);
    for (const Paper paper : {Paper::a4, Paper::letter})
        CHECK(test::layout_fault(layout::lay_out(s, paper, flat)) == "");
}

TEST_CASE("a client's sheet is its paper at 200 dots an inch") {
    // ISO 216: A4 is 210 mm × 297 mm; ANSI/ASME Y14.1: letter is 8.5 in × 11 in. 200 dots an inch are 7874 a metre.
    const auto a4 = layout::lay_out(example(2, 4, true, false), Paper::a4, flat);
    CHECK(a4.width == 1654);
    CHECK(a4.height == 2339);
    const auto letter = layout::lay_out(example(2, 4, true, false), Paper::letter, flat);
    CHECK(letter.width == 1700);
    CHECK(letter.height == 2200);
    const auto png = format::sheet_png(letter);
    const auto read = test::read_png(png);
    CHECK(read.complaints.empty());
    CHECK(read.image.width == 1700);
    CHECK(read.image.height == 2200);
    CHECK(read.x_per_unit == 7874);
    CHECK(read.y_per_unit == 7874);
    CHECK(read.unit_is_metre);
    CHECK(png == format::sheet_png(letter));
}

TEST_CASE("a job's notes stand in small print, where there are any") {
    auto s = example(2, 2, true, false);
    CHECK(test::lines_with(layout::lay_out(s, Paper::a4, flat), "Notes: ask") == 1);
    s.notes.clear();
    CHECK(test::lines_with(layout::lay_out(s, Paper::a4, flat), "Notes:") == 0);
}

TEST_CASE("a finish that fails cannot be chosen and says so twice") {
    layout::ClientSheet s = example(3, 2, true, false);
    s.finishes[1].fails = true;
    s.refusals = {"B WILL NOT HOLD: it peels"};
    const auto sheet = layout::lay_out(s, Paper::a4, flat);
    CHECK(test::lines_with(sheet, "WILL NOT HOLD") == 2);
    // Letters stand beside the boards, before the recipes and at the boxes to tick.
    const auto letters = [&](const std::string& letter) {
        std::size_t count = 0;
        for (const auto& t : sheet.texts) count += t.text == letter;
        return count;
    };
    CHECK(letters("A") == 3);
    CHECK(letters("B") == 2);
    CHECK(test::lines_with(sheet, "Screens and prints are not the sample: sign the real board.") == 1);
    for (auto& f : s.finishes) f.fails = true;
    CHECK(test::lines_with(layout::lay_out(s, Paper::a4, flat), "none of these will hold") == 1);
}

TEST_CASE(
    "the boards of a client's sheet are painted at the size they are asked for, one a finish and light, and two "
    "controls") {
    std::size_t bare = 0, clear = 0, finish = 0;
    const auto sheet = layout::lay_out(example(4, 3, true, false), Paper::a4, [&](const layout::BoardWanted& w) {
        (w.of == layout::BoardWanted::Of::bare ? bare : w.of == layout::BoardWanted::Of::clear ? clear : finish) += 1;
        return flat(w);
    });
    CHECK(bare == 2);
    CHECK(clear == 2);
    CHECK(finish == 8);
    REQUIRE(sheet.pictures.size() == 12);
    layout::Sheet wrong = sheet;
    wrong.pictures[0].image = light::Image::filled(3, 3, {0, 0, 0});
    CHECK_THROWS_AS(layout::paint(wrong), std::invalid_argument);
}

TEST_CASE("fewer finishes have larger boards") {
    int before = 10000;
    for (std::size_t count = 1; count <= 4; ++count) {
        const int height = layout::lay_out(example(count, 4, true, false), Paper::a4, flat).pictures.back().box.height;
        CHECK(height <= before);
        before = height;
    }
}

TEST_CASE("a client's sheet of none or five finishes is refused") {
    using Catch::Matchers::Contains;
    CHECK_THROWS_WITH(layout::lay_out(example(0, 3, true, false), Paper::a4, flat), Contains("1 to 4 finishes, got 0"));
    CHECK_THROWS_WITH(layout::lay_out(example(5, 3, true, false), Paper::a4, flat), Contains("1 to 4 finishes, got 5"));
    auto many = example(1, 3, true, false);
    many.finishes[0].by_light[1].plausible.resize(49);
    CHECK_THROWS_WITH(layout::lay_out(many, Paper::a4, flat), Contains("at most 48 plausible colors, got 49"));
}

TEST_CASE("a sheet as HTML holds its texts escaped, its pictures inside, and nothing from outside") {
    layout::ClientSheet s = example(2, 3, true, false);
    s.title = "<script>alert('x')</script> & \"co\"";
    s.finishes[0].name = "</text></svg><img src=x onerror=alert(1)>";
    s.date = "\"><b>";
    const auto size = layout::size_of(Paper::letter);
    const std::string html =
        format::sheet_html(layout::lay_out(s, Paper::letter, flat), {size.css, size.width_mm, size.height_mm});
    for (const char* raw : {"<script", "<img", "<b>", "http:", "https:", "//", "url(", "<link", "@import", "onload"}) {
        INFO(raw);
        // A slash pair can stand inside base 64: look outside the pictures.
        std::string outside = html;
        for (std::size_t at; (at = outside.find("base64,")) != std::string::npos;)
            outside.erase(at, outside.find('"', at) - at);
        CHECK(outside.find(raw) == std::string::npos);
    }
    CHECK(html.find("&lt;script&gt;alert(&#39;x&#39;)&lt;/script&gt; &amp; &quot;co&quot;") != std::string::npos);
    CHECK(html.find("default-src 'none'") != std::string::npos);
    CHECK(html.find("@page{size:letter;margin:0}") != std::string::npos);
    std::size_t pictures = 0, embedded = 0;
    for (std::size_t at = 0; (at = html.find("<image ", at)) != std::string::npos; ++at) ++pictures;
    for (std::size_t at = 0; (at = html.find("href=\"data:image/png;base64,", at)) != std::string::npos; ++at)
        ++embedded;
    CHECK(pictures == 8);
    CHECK(embedded == pictures);
}

TEST_CASE("text for HTML is valid, escaped, and without what one cannot see") {
    CHECK(format::safe_text("a<&>\"'") == "a&lt;&amp;&gt;&quot;&#39;");
    CHECK(format::safe_text("a\tb\x01"
                            "c") == "a b c");
    CHECK(format::safe_text("x\xE2\x80\xAEy\xC2\xADz") == "xyz");  // U+202E, U+00AD
    CHECK(format::safe_text("\xFF") == "\xEF\xBF\xBD");
    CHECK(format::safe_text("\xC0\xBC") == "\xEF\xBF\xBD\xEF\xBF\xBD");  // '<' in two bytes is no '<'
}

TEST_CASE("base 64 as RFC 4648 section 10 has it") {
    const std::pair<const char*, const char*> vectors[] = {{"", ""},
                                                           {"f", "Zg=="},
                                                           {"fo", "Zm8="},
                                                           {"foo", "Zm9v"},
                                                           {"foob", "Zm9vYg=="},
                                                           {"fooba", "Zm9vYmE="},
                                                           {"foobar", "Zm9vYmFy"}};
    for (const auto& [plain, coded] : vectors) {
        const std::string text = plain;
        CHECK(format::base64({text.begin(), text.end()}) == coded);
    }
}
