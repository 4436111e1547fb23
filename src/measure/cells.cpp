#include "cells.hpp"

namespace foretone::measure {
namespace {

constexpr std::string_view left_quote = "\xE2\x80\x9C", right_quote = "\xE2\x80\x9D", low_quote = "\xE2\x80\x9E";

// Reads one line from left to right.
class Scanner {
public:
    Scanner(const Line& line, Notes& notes) : line_(line), text_(line.text), notes_(notes) {}

    bool done() const { return at_ >= text_.size(); }
    char now() const { return text_[at_]; }
    bool blank() const { return now() == ' ' || now() == '\t'; }
    void step() { ++at_; }
    std::size_t at() const { return at_; }
    std::string_view from(std::size_t start) const { return text_.substr(start, at_ - start); }

    // Columns are counted on from the last one asked for: linear over a line.
    std::size_t column(std::size_t at) {
        counted_ += characters(text_.substr(counted_at_, at - counted_at_));
        counted_at_ = at;
        return counted_ + 1;
    }

    // A quoted text, from its opening quotes to past its closing ones. An odd number opens as in CSV: one quote, then
    // doubled ones that belong to the text; a text that is then still wrapped in quotes had been quoted twice. An even
    // number is closed by the same number.
    std::string quoted() {
        const std::size_t start = at_;
        const std::size_t opening = run();
        std::string out;
        if (opening % 2 == 0) {
            if (ends_here()) return out;  // "" or """": nothing within
            while (!done()) {
                if (const std::size_t quotes = run(); quotes == opening) {
                    note_doubled(start);
                    return out;
                } else {
                    out.append(quotes, '"');
                }
                if (!done()) out += now(), step();
            }
            refuse_open(start);
        }
        out.append((opening - 1) / 2, '"');
        while (!done()) {
            const std::size_t quotes = run();
            out.append(quotes / 2, '"');
            if (quotes % 2 == 1) {
                if (out.size() > 2 && out.front() == '"' && out.back() == '"' && out.find('"', 1) == out.size() - 1) {
                    note_doubled(start);
                    return out.substr(1, out.size() - 2);
                }
                return out;
            }
            if (!done()) out += now(), step();
        }
        refuse_open(start);
    }

    bool ends_here() const { return done() || blank() || now() == ',' || now() == ';'; }

private:
    std::size_t run() {
        std::size_t quotes = 0;
        while (!done() && now() == '"') ++quotes, step();
        return quotes;
    }
    void note_doubled(std::size_t start) {
        notes_.add("quotes-doubled", line_.number, column(start),
                   "quotes are doubled here, as a spreadsheet does on saving; read as one pair");
    }
    [[noreturn]] void refuse_open(std::size_t start) {
        const auto text = shortened(text_.substr(start));
        throw Refused("quote-open", line_.number, column(start), text,
                      "the quote that opens here is not closed on its line: " + text);
    }

    const Line& line_;
    std::string_view text_;
    Notes& notes_;
    std::size_t at_ = 0, counted_at_ = 0, counted_ = 0;
};

std::string straightened(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size();) {
        const auto three = text.substr(i, 3);
        const bool curly = three == left_quote || three == right_quote || three == low_quote;
        if (curly)
            out += '"';
        else
            out += text[i];
        i += curly ? 3 : 1;
    }
    return out;
}

}  // namespace

std::vector<Cell> split_at(const Line& line, char separator, Notes& notes, Budget& budget) {
    std::vector<Cell> out;
    Scanner s(line, notes);
    const auto skip_blanks = [&] {
        while (!s.done() && s.blank() && s.now() != separator) s.step();
    };
    while (true) {
        budget.take(line);
        skip_blanks();
        const std::size_t start = s.at();
        Cell cell{"", line.number, s.column(start), false};
        if (!s.done() && s.now() == '"') {
            cell.quoted = true;
            cell.text = s.quoted();
            skip_blanks();
            if (!s.done() && s.now() != separator)
                throw Refused("quote-after", line.number, cell.column, shortened(cell.text),
                              "text follows the closing quote of '" + shortened(cell.text) +
                                  "'; a quote within a quoted cell is written twice");
        } else {
            while (!s.done() && s.now() != separator) s.step();
            cell.text = trimmed(s.from(start));
        }
        out.push_back(std::move(cell));
        if (s.done()) return out;
        s.step();  // past the separator; one at the end of the line is followed by an empty cell
    }
}

std::vector<Cell> split_at_blanks(const Line& line, Notes& notes, Budget& budget) {
    std::string straight;
    Line read = line;
    const auto has = [&](std::string_view mark) { return line.text.find(mark) != std::string_view::npos; };
    if ((has(left_quote) || has(low_quote)) && !has("\"")) {
        straight = straightened(line.text);
        read.text = straight;
        notes.add("quotes-curly", line.number, 1,
                  "curly quotes stand here, as a word processor puts them; read as plain quotes");
    }
    std::vector<Cell> out;
    Scanner s(read, notes);
    while (true) {
        while (!s.done() && s.blank()) s.step();
        if (s.done() || s.now() == '#') return out;
        budget.take(line);
        const std::size_t start = s.at();
        Cell cell{"", line.number, s.column(start), false};
        if (s.now() == '"') {
            cell.quoted = true;
            cell.text = s.quoted();
        } else {
            while (!s.done() && !s.blank()) s.step();
            cell.text = s.from(start);
        }
        out.push_back(std::move(cell));
    }
}

bool drop_empty_end(std::vector<Cell>& cells) {
    bool any = false;
    while (!cells.empty() && cells.back().text.empty() && !cells.back().quoted) {
        cells.pop_back();
        any = true;
    }
    return any;
}

}  // namespace foretone::measure
