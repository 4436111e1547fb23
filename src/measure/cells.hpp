#pragma once
/// Lines split into cells, by a separator or by blanks, and numbers read from cells.

#include <optional>
#include <string>
#include <vector>

#include "text.hpp"

namespace foretone::measure {

struct Cell {
    std::string text;
    std::size_t line = 0, column = 0;  ///< in characters, from 1
    bool quoted = false;
};

/// Takes part of the limit on fields. Throws Refused fields-too-many.
class Budget {
public:
    explicit Budget(std::size_t most) : most_(most) {}
    void take(const Line& line) {
        if (++used_ > most_)
            throw Refused("fields-too-many", line.number, 1, std::to_string(used_),
                          "the file has more than " + std::to_string(most_) + " values; readings have a few thousand");
    }

private:
    std::size_t most_, used_ = 0;
};

/// Cells between separators (',', ';' or a tab), each quoted or not, blanks around it left out. A quote within a quoted
/// cell is doubled; a cell that was quoted twice loses both pairs (note quotes-doubled). Throws Refused quote-open,
/// quote-after.
std::vector<Cell> split_at(const Line& line, char separator, Notes& notes, Budget& budget);

/// Words between blanks or tabs, each quoted or not. A '#' that begins a word begins a comment. Quotes as in
/// `split_at`; curly quotes around a word count as quotes (note quotes-curly).
std::vector<Cell> split_at_blanks(const Line& line, Notes& notes, Budget& budget);

/// Leaves out empty cells at the end; true if there were any.
bool drop_empty_end(std::vector<Cell>& cells);

/// Reads a file's numbers, and watches that they are all written in one way.
class Numbers {
public:
    explicit Numbers(Notes& notes) : notes_(notes) {}

    /// The number in `text`, nothing if it is none: decimal point or comma, a leading plus or a typographic minus, an
    /// exponent, and a percent sign at the end (then `percent_sign` is set). Tells no one.
    struct Look {
        double value = 0;
        bool comma = false, point = false, odd_minus = false, percent_sign = false;
    };
    static std::optional<Look> look(std::string_view text);

    /// The number in `cell`. `what` says what it is. Throws Refused value-missing, number-bad, number-not-finite,
    /// decimal-mixed; notes decimal-comma, minus-typographic.
    Look read(const Cell& cell, const std::string& what);

private:
    Notes& notes_;
    std::optional<Cell> comma_, point_;
};

}  // namespace foretone::measure
