#pragma once
/// The published and computed tables that are compiled in, as rows by column name.

#include <map>
#include <string>
#include <vector>

namespace foretone::job {

using Row = std::map<std::string, std::string>;

/// Rows of `table`.csv; cells may be quoted. Empty if there is no such table.
std::vector<Row> table_rows(const std::string& table);

/// A line's cells, quotes taken off.
std::vector<std::string> table_cells(const std::string& line, char separator);

/// A cell as a number: "inf" is infinity, what is none NaN.
double table_number(const std::string& text);
double number(const Row& row, const std::string& column);

}  // namespace foretone::job
