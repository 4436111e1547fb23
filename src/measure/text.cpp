#include "text.hpp"

#include <algorithm>
#include <array>

#include "foretone/base/utf8.hpp"

namespace foretone::measure {
namespace {

// Windows-1252, 0x80–0x9F; the rest of it is Latin-1. 0 where it names no character.
constexpr std::array<unsigned, 32> windows_1252 = {0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
                                                   0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
                                                   0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
                                                   0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

void append_utf8(std::string& out, unsigned code) {
    if (code < 0x80) {
        out += static_cast<char>(code);
    } else if (code < 0x800) {
        out += static_cast<char>(0xC0 | (code >> 6));
        out += static_cast<char>(0x80 | (code & 0x3F));
    } else {
        out += static_cast<char>(0xE0 | (code >> 12));
        out += static_cast<char>(0x80 | ((code >> 6) & 0x3F));
        out += static_cast<char>(0x80 | (code & 0x3F));
    }
}

bool is_utf8(std::string_view text) {
    for (std::size_t i = 0; i < text.size();) {
        const std::size_t length = utf8_length(text, i);
        if (length == 0) return false;
        i += length;
    }
    return true;
}

// Blanks that are not the space bar's: no-break, narrow no-break, figure space.
bool is_odd_blank(std::string_view character) {
    return character == "\xC2\xA0" || character == "\xE2\x80\xAF" || character == "\xE2\x80\x87";
}

void refuse_other_files(std::string_view text, const Options& options) {
    if (text.size() > options.most_bytes)
        throw Refused("text-too-large", 0, 0, std::to_string(text.size()),
                      "the file has " + std::to_string(text.size()) + " bytes; the largest read is " +
                          std::to_string(options.most_bytes));
    if (text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF"))
        throw Refused("text-utf16", 1, 1, "UTF-16",
                      "this text is in UTF-16 (\"Unicode text\" in a spreadsheet); save it as CSV in UTF-8");
    if (text.starts_with("PK\x03\x04"))
        throw Refused("text-zipped", 1, 1, "PK",
                      "this is a zipped file such as a spreadsheet's workbook, not text; save the one sheet with the "
                      "readings as CSV");
}

// What ends the lines: counted, so that the note can say it.
struct Ends {
    std::size_t lf = 0, crlf = 0, cr = 0;
    std::size_t all() const { return lf + crlf + cr; }
};

Ends count_ends(std::string_view text) {
    Ends n;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text[i] == '\n')
            ++n.lf;
        else if (text[i] == '\r' && i + 1 < text.size() && text[i + 1] == '\n')
            ++n.crlf, ++i;
        else if (text[i] == '\r')
            ++n.cr;
    }
    return n;
}

void note_ends(const Ends& n, Notes& notes) {
    if (n.crlf > 0 && n.cr == 0 && n.lf == 0)
        notes.add("line-ends", 1, 1, "the lines end in CR LF, as on Windows; read as line ends");
    else if (n.cr > 0 && n.lf == 0 && n.crlf == 0)
        notes.add("line-ends", 1, 1, "the lines end in CR alone, as on old machines; read as line ends");
    else if ((n.lf > 0) + (n.crlf > 0) + (n.cr > 0) > 1)
        notes.add("line-ends", 1, 1,
                  "the lines end in different ways (" + std::to_string(n.lf) + " LF, " + std::to_string(n.crlf) +
                      " CR LF, " + std::to_string(n.cr) + " CR); each read as a line end");
}

// Copies text into out.text, character by character, with line feeds alone as line ends.
class Cleaner {
public:
    Cleaner(Notes& notes, std::string& out) : notes_(notes), out_(out) {}

    void run(std::string_view text, bool utf8) {
        for (std::size_t i = 0; i < text.size();) {
            const std::size_t length = utf8 ? utf8_length(text, i) : 1;
            const auto character = text.substr(i, length);
            i += length;
            if (character == "\n" || character == "\r") {
                if (character == "\r" && i < text.size() && text[i] == '\n') ++i;
                out_ += '\n';
                ++line_;
                column_ = 1;
                continue;
            }
            one(character, utf8, i == text.size());
            ++column_;
        }
    }

private:
    void one(std::string_view character, bool utf8, bool last) {
        const auto byte = static_cast<unsigned char>(character[0]);
        if (byte == 0x1A && last) return;  // an old end-of-file mark
        if ((byte < 0x20 && byte != '\t' && byte != '\f' && byte != '\v') || byte == 0x7F)
            throw Refused("text-binary", line_, column_, std::to_string(byte),
                          "the control character " + std::to_string(byte) +
                              " stands here: this is not a text file, or it is damaged");
        if (utf8 && byte >= 0x80)
            if (std::size_t from = 0; base::is_control(base::next_code_point(character, from)))
                throw Refused("text-control", line_, column_, "",
                              "a control character that does not show stands here (one that turns the direction of "
                              "writing, or a terminal's); take it out");
        if (byte == '\f' || byte == '\v' || (utf8 ? is_odd_blank(character) : byte == 0xA0)) {
            notes_.add("blank-unusual", line_, column_,
                       "a blank that is not a plain space (a no-break space, a form feed) was read as a space");
            out_ += ' ';
        } else if (utf8 || byte < 0x80) {
            out_ += character;
        } else {
            const unsigned code = byte < 0xA0 ? windows_1252[byte - 0x80u] : byte;
            append_utf8(out_, code == 0 ? 0xFFFD : code);
            notes_.add("text-not-utf8", line_, column_, "the text is not UTF-8; it was read as Windows-1252");
        }
    }

    Notes& notes_;
    std::string& out_;
    std::size_t line_ = 1, column_ = 1;
};

}  // namespace

std::size_t utf8_length(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) { return i < text.size() ? static_cast<unsigned char>(text[i]) : 0u; };
    const unsigned first = byte(at);
    const auto follows = [&](std::size_t i) { return (byte(at + i) & 0xC0) == 0x80; };
    if (first < 0x80) return 1;
    if (first >= 0xC2 && first < 0xE0) return follows(1) ? 2 : 0;
    if (first >= 0xE0 && first < 0xF0) {
        if (!follows(1) || !follows(2) || (first == 0xE0 && byte(at + 1) < 0xA0) ||
            (first == 0xED && byte(at + 1) > 0x9F))
            return 0;
        return 3;
    }
    if (first >= 0xF0 && first < 0xF5) {
        if (!follows(1) || !follows(2) || !follows(3) || (first == 0xF0 && byte(at + 1) < 0x90) ||
            (first == 0xF4 && byte(at + 1) > 0x8F))
            return 0;
        return 4;
    }
    return 0;
}

std::size_t characters(std::string_view text) {
    return static_cast<std::size_t>(
        std::count_if(text.begin(), text.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

std::string shortened(std::string_view text) {
    std::size_t end = 0, count = 0;
    while (end < text.size() && count < 40) {
        end += std::max<std::size_t>(1, utf8_length(text, end));
        ++count;
    }
    return end >= text.size() ? std::string(text) : std::string(text.substr(0, end)) + "...";
}

void clean(std::string_view text, const Options& options, Notes& notes, Lines& out) {
    refuse_other_files(text, options);
    if (text.starts_with("\xEF\xBB\xBF")) {
        text.remove_prefix(3);
        notes.add("byte-order-mark", 1, 1, "the file begins with a byte-order mark; it was left out");
    }
    const Ends ends = count_ends(text);
    if (ends.all() >= options.most_fields)
        throw Refused("lines-too-many", 0, 0, std::to_string(ends.all()),
                      "the file has " + std::to_string(ends.all()) + " lines; at most " +
                          std::to_string(options.most_fields) + " are read");
    note_ends(ends, notes);
    out.text.reserve(text.size());
    Cleaner(notes, out.text).run(text, is_utf8(text));
    std::string_view rest = out.text;
    bool content = false;
    for (std::size_t number = 1; !rest.empty(); ++number) {
        const auto end = rest.find('\n');
        out.list.push_back({rest.substr(0, end), number});
        content = content || !trimmed(out.list.back().text).empty();
        rest.remove_prefix(end == std::string_view::npos ? rest.size() : end + 1);
    }
    if (!content)
        throw Refused("text-empty", 0, 0, "",
                      "the file is empty; readings are due: CGATS text, CSV or a list of Lab values");
}

}  // namespace foretone::measure
