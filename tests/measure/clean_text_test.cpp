// Bytes to clean UTF-8 lines: what is well formed, what old code pages meant, where a line ends, what is no text.

#include "../../src/measure/text.hpp"

#include <catch2/catch.hpp>
#include <iconv.h>

#include <array>
#include <random>

#include "measure/refusals.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// UTF-8 as its definition makes it (Unicode 15, D92): six bits a following byte.
std::string encoded(unsigned code) {
    if (code < 0x80) return {static_cast<char>(code)};
    std::string out;
    int more = code < 0x800 ? 1 : code < 0x10000 ? 2 : 3;
    constexpr std::array<unsigned, 4> first = {0, 0xC0, 0xE0, 0xF0};
    out += static_cast<char>(first[static_cast<std::size_t>(more)] | (code >> (6 * more)));
    while (more-- > 0) out += static_cast<char>(0x80 | ((code >> (6 * more)) & 0x3F));
    return out;
}

struct Cleaned {
    measure::Lines lines;
    std::string notes, refused;
};

void clean_into(Cleaned& out, const std::string& text, const measure::Options& options = {}) {
    measure::Notes notes;
    out.refused = refused_as([&] { measure::clean(text, options, notes, out.lines); });
    out.notes = note_lines(notes.list());
}

std::string cleaned_text(const std::string& text) {
    Cleaned c;
    clean_into(c, text);
    return c.refused == "read" ? c.lines.text : c.refused;
}

std::string notes_of_text(const std::string& text) {
    Cleaned c;
    clean_into(c, text);
    return c.notes;
}

// What the C library's converter makes of a byte of Windows-1252; empty where the code page has none.
std::string windows_1252_by_iconv(unsigned char byte) {
    static const iconv_t converter = iconv_open("UTF-8", "WINDOWS-1252");
    REQUIRE(converter != reinterpret_cast<iconv_t>(-1));
    char in[1] = {static_cast<char>(byte)}, out[8] = {};
    char *from = in, *to = out;
    std::size_t left = 1, room = sizeof out;
    if (iconv(converter, &from, &left, &to, &room) == static_cast<std::size_t>(-1)) return "";
    return {out, sizeof out - room};
}

}  // namespace

TEST_CASE("every character of Unicode is as long as its definition says, and none that is cut or a surrogate is one") {
    std::size_t wrong = 0;
    for (unsigned code = 1; code <= 0x10FFFF; code += code < 0x3000 || code > 0xD000 ? 1 : 7) {
        if (code > 0xE100 && code < 0xFF00) code = 0xFF00;
        if (code > 0x10100 && code < 0x10FF00) code = 0x10FF00;
        const auto text = encoded(code);
        const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
        wrong += measure::utf8_length(text, 0) != (surrogate ? 0 : text.size());
        wrong += !surrogate && measure::characters(text + "x" + text) != 3;
        for (std::size_t cut = 1; cut < text.size(); ++cut)
            wrong += measure::utf8_length(text.substr(0, cut), 0) != 0 ||
                     measure::utf8_length(text.substr(0, cut) + "x", 0) != 0;
    }
    CHECK(wrong == 0);
}

// Unicode 15, table 3-7: the longer forms of short characters, what lies beyond 10FFFF, and stray bytes.
TEST_CASE("overlong, too large and stray bytes are no characters") {
    for (const char* bad : {"\xC0\xAF", "\xC1\xBF", "\xE0\x9F\xBF", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80",
                            "\xF5\x80\x80\x80", "\x80", "\xBF", "\xFE", "\xED\xA0\x80"})
        CHECK(measure::utf8_length(bad, 0) == 0);
    for (const char* good :
         {"\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"})
        CHECK(measure::utf8_length(good, 0) == std::string(good).size());
}

TEST_CASE("a text that is not UTF-8 is read as Windows-1252, byte for byte as the C library's converter reads it") {
    int compared = 0;
    for (unsigned byte = 0x80; byte < 0x100; ++byte) {
        if (byte == 0xA0) continue;  // the no-break space becomes a plain one, told elsewhere
        const std::string due = windows_1252_by_iconv(static_cast<unsigned char>(byte));
        INFO("byte " << byte);
        // Bytes that the code page leaves open become U+FFFD.
        CHECK(cleaned_text(std::string("a") + static_cast<char>(byte) + "b") ==
              "a" + (due.empty() ? "\xEF\xBF\xBD" : due) + "b");
        compared += !due.empty();
    }
    CHECK(compared >= 122);
    CHECK(notes_of_text("ok\nk\xE9r\xE9") == "2:2 text-not-utf8");
}

TEST_CASE("lines are the same whatever ends them, numbered from one, and odd ends are told") {
    const std::string plain = "one\n\ntwo\nthree";
    const auto with = [&](const std::string& end) {
        std::string out;
        for (const char c : plain) out += c == '\n' ? end : std::string(1, c);
        return out;
    };
    for (const char* end : {"\n", "\r\n", "\r"}) {
        Cleaned c;
        clean_into(c, with(end));
        CHECK(c.lines.text == plain);
        REQUIRE(c.lines.list.size() == 4);
        CHECK(c.lines.list[3].text == "three");
        CHECK(c.lines.list[3].number == 4);
        CHECK(c.notes == (std::string(end) == "\n" ? "" : "1:1 line-ends"));
    }
    measure::Notes notes;
    measure::Lines lines;
    measure::clean("a\r\nb\nc\rd\n", {}, notes, lines);
    CHECK(lines.list.size() == 4);
    CHECK(notes.list()[0].text == "the lines end in different ways (2 LF, 1 CR LF, 1 CR); each read as a line end");
}

TEST_CASE("marks and blanks that no one sees are taken out, and told with their place") {
    CHECK(cleaned_text("\xEF\xBB\xBFname") == "name");
    CHECK(notes_of_text("\xEF\xBB\xBFname") == "1:1 byte-order-mark");
    for (const char* blank : {"\xC2\xA0", "\xE2\x80\xAF", "\xE2\x80\x87", "\f", "\v"}) {
        CHECK(cleaned_text(std::string("a\xC3\xA9") + blank + "b") == "a\xC3\xA9 b");
        CHECK(notes_of_text(std::string("x\na\xC3\xA9") + blank + "b") == "2:3 blank-unusual");
    }
    CHECK(notes_of_text(std::string("caf\xE9") + "\xA0x") == "1:4 text-not-utf8\n1:5 blank-unusual");
    CHECK(cleaned_text("a\tb") == "a\tb");
    CHECK(cleaned_text("a\n\x1A") == "a\n");  // an old end-of-file mark, at the end only
    CHECK(cleaned_text("a\n\x1A b") == "2:1 text-binary '26'");
}

TEST_CASE("what is no text, too much or nothing is refused with what to do") {
    CHECK(cleaned_text("\xFF\xFE"
                       "a") == "1:1 text-utf16 'UTF-16'");
    CHECK(cleaned_text("\xFE\xFF"
                       "a") == "1:1 text-utf16 'UTF-16'");
    CHECK(cleaned_text("PK\x03\x04 and more") == "1:1 text-zipped 'PK'");
    CHECK(cleaned_text("PK alone is text") == "PK alone is text");
    CHECK(cleaned_text(std::string("ab\nc\0d", 6)) == "2:2 text-binary '0'");
    CHECK(cleaned_text("a\x7F") == "1:2 text-binary '127'");
    for (const char* nothing : {"", " \n\t\n", "\xEF\xBB\xBF", "\x1A"})
        CHECK(cleaned_text(nothing) == "0:0 text-empty ''");
    measure::Options small;
    small.most_bytes = 5;
    const auto refused = [&](const std::string& text) {
        Cleaned c;
        clean_into(c, text, small);
        return c.refused;
    };
    CHECK(refused("12345") == "read");
    CHECK(refused("123456") == "0:0 text-too-large '6'");
    small.most_bytes = 100;
    small.most_fields = 3;
    CHECK(refused("1\n2\n3") == "read");
    CHECK(refused("1\n2\n3\n") == "0:0 lines-too-many '3'");
}

TEST_CASE("a value is shortened for a message at forty whole characters") {
    const std::string forty(40, 'x');
    CHECK(measure::shortened(forty) == forty);
    CHECK(measure::shortened(forty + "y") == forty + "...");
    std::string accents;
    for (int i = 0; i < 41; ++i) accents += "\xC3\xA9";
    CHECK(measure::shortened(accents) == accents.substr(0, 80) + "...");
    CHECK(measure::shortened(std::string(50, '\x80')) == std::string(40, '\x80') + "...");  // no character, a byte each
}

TEST_CASE("cleaning twice changes nothing, whatever bytes come") {
    std::mt19937_64 random(13);
    int read = 0;
    const std::string often = "aZ09 \t\n\r,;\"#\xC3\xA9\xE2\x82\xAC\xF0\x9F\x8E\xA8\xA0\x85\xEF\xBB\xBF";
    for (int i = 0; i < 4000; ++i) {
        std::string text;
        for (std::uint64_t k = random() % 30; k > 0; --k) text += often[random() % often.size()];
        Cleaned once;
        clean_into(once, text);
        if (once.refused != "read") continue;
        ++read;
        if (cleaned_text(once.lines.text) != once.lines.text) {
            CAPTURE(text);
            FAIL("cleaned again it is another text");
        }
        for (std::size_t at = 0; at < once.lines.text.size();) {
            const auto length = measure::utf8_length(once.lines.text, at);
            REQUIRE(length > 0);
            at += length;
        }
    }
    CHECK(read > 3000);
}

TEST_CASE("lines that end in two ways are told, if only one of them ends otherwise") {
    const auto ends = [](const std::string& text) {
        measure::Notes notes;
        measure::Lines lines;
        measure::clean(text, {}, notes, lines);
        for (const auto& n : notes.list())
            if (n.id == "line-ends") return n.text;
        return std::string();
    };
    CHECK(ends("a\nb\nc\n").empty());
    CHECK(ends("a\nb\rc\n").find("2 LF, 0 CR LF, 1 CR") != std::string::npos);
    CHECK(ends("a\nb\r\nc\n").find("2 LF, 1 CR LF, 0 CR") != std::string::npos);
    CHECK(ends("a\rb\rc\n").find("1 LF, 0 CR LF, 2 CR") != std::string::npos);
    CHECK(ends("a\r\nb\r\n").find("CR LF, as on Windows") != std::string::npos);
    CHECK(ends("a\rb\r").find("CR alone") != std::string::npos);
}
