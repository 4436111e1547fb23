#pragma once
/// What the terminal can show: color chips, and tables whose columns line up with any UTF-8.

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "foretone/base/number.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/schedule/system.hpp"

namespace foretone::cli {

/// How many colors standard output can show: decided once from COLORTERM, TERM, NO_COLOR and whether it is a terminal.
enum class Chips { none, palette, full };
Chips chips();

/// A chip of four cells in that color, empty if the terminal shows none.
std::string chip(const std::array<std::uint8_t, 3>& code, Chips how);

/// Columns taken on a terminal by UTF-8 text (escape sequences take none).
std::size_t columns_of(const std::string& text);

/// `text` padded to `width` columns; shortened with "…" if longer.
std::string left(const std::string& text, std::size_t width);
std::string right(const std::string& text, std::size_t width);

using base::fixed;

/// L*, a*, b* in columns of fixed width.
std::string lab_text(const color::Lab& c);

/// A dry film in a table's column: its head, with the unit, and a cell, empty where there is no film.
std::string film_head(schedule::UnitSystem units);
std::string film_cell(double um, schedule::UnitSystem units);

/// The largest of some numbers, 0 of none.
double largest(const std::vector<double>& values);

/// The words that stand at the largest number; both lists are of one length.
std::string worst_words(const std::vector<double>& values, const std::vector<std::string>& words);

/// Rows as a table: two spaces between columns, the first row underlined; columns listed in `numeric` set to the right.
std::string table(const std::vector<std::vector<std::string>>& rows, const std::vector<bool>& numeric);

}  // namespace foretone::cli
