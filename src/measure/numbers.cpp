// Numbers as people, spreadsheets and instruments write them: 0.31  0,31  +0.31  −0.31 (typographic)  31 %  3.1e-1.
// One file keeps to one decimal sign; a file with both is refused, because 1,234 would then be a thousand or a bit more
// than one.

#include <cmath>

#include "foretone/base/number.hpp"

#include "cells.hpp"

namespace foretone::measure {
namespace {

constexpr std::string_view odd_minuses[] = {"\xE2\x88\x92", "\xE2\x80\x93", "\xE2\x80\x90", "\xE2\x80\x91"};  // − – ‐ ‑

bool starts_number(char c) { return (c >= '0' && c <= '9') || c == '.' || c == '-'; }

}  // namespace

std::optional<Numbers::Look> Numbers::look(std::string_view text) {
    Look out;
    text = trimmed(text);
    if (text.ends_with('%')) {
        out.percent_sign = true;
        text = trimmed(text.substr(0, text.size() - 1));
    }
    std::string plain;
    for (const auto minus : odd_minuses)
        if (text.starts_with(minus)) {
            out.odd_minus = true;
            plain = "-";
            text.remove_prefix(minus.size());
            break;
        }
    if (!out.odd_minus && text.starts_with('+') && text.size() > 1 && text[1] != '-') text.remove_prefix(1);
    if (text.empty() || text.size() > 40) return std::nullopt;
    plain += text;
    if (!starts_number(plain[0])) {
        if (plain[0] != ',') return std::nullopt;  // inf and nan are words here, told apart by `read`
    }
    if (const auto comma = plain.find(','); comma != std::string::npos) {
        if (plain.find(',', comma + 1) != std::string::npos || plain.find('.') != std::string::npos)
            return std::nullopt;
        plain[comma] = '.';
        out.comma = true;
    } else {
        out.point = plain.find('.') != std::string::npos;
    }
    const auto read = base::number_in(plain);
    if (!read || !std::isfinite(*read)) return std::nullopt;
    out.value = *read;
    return out;
}

Numbers::Look Numbers::read(const Cell& cell, const std::string& what) {
    const auto text = trimmed(cell.text);
    if (text.empty())
        throw Refused("value-missing", cell.line, cell.column, "",
                      what + " is missing here: the cell is empty; write the number, or take the whole row out");
    const auto found = look(text);
    if (!found) {
        const std::string word = lower(text);
        if (word == "nan" || word == "inf" || word == "-inf" || word == "-nan")
            throw Refused("number-not-finite", cell.line, cell.column, shortened(text),
                          what + " is '" + shortened(text) + "', not a finite number");
        throw Refused(
            "number-bad", cell.line, cell.column, shortened(text),
            what + " is '" + shortened(text) + "', not a number (digits with one decimal point or comma, no unit)");
    }
    auto& seen = found->comma ? comma_ : point_;
    const auto& other = found->comma ? point_ : comma_;
    if (found->comma || found->point) {
        if (other)
            throw Refused("decimal-mixed", cell.line, cell.column, shortened(text),
                          "'" + shortened(text) + "' has a decimal " + (found->comma ? "comma" : "point") + ", but '" +
                              shortened(other->text) + "' in line " + std::to_string(other->line) + " a decimal " +
                              (found->comma ? "point" : "comma") + "; one file keeps to one of the two");
        if (!seen) seen = cell;
    }
    if (found->comma)
        notes_.add("decimal-comma", cell.line, cell.column,
                   "numbers are written with a decimal comma; '" + shortened(text) + "' was read so");
    if (found->odd_minus)
        notes_.add("minus-typographic", cell.line, cell.column,
                   "a typographic dash stands for the minus of '" + shortened(text) + "'; read as minus");
    return *found;
}

}  // namespace foretone::measure
