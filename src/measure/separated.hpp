#pragma once
/// What CSV and lists have in common: which separator, and lines that state a condition.

#include <optional>

#include "conditions.hpp"

namespace foretone::measure {

/// The separator of separated values: the first of tab, ';' and ',' that most lines hold (outside quotes); comments and
/// lines that state a condition aside. ',' if none.
char separator_of(const Lines& lines);

/// "key: value" or "key = value" in one line, or a key and a value in two cells.
struct Said {
    std::string key;
    Cell value;
};
std::optional<Said> said_in(const Line& line);
std::optional<Said> said_in_cells(const std::vector<Cell>& cells);

}  // namespace foretone::measure
