#pragma once
/// Reads the comma-separated tables in tests/data: quoted cells, a header row.

#include <map>
#include <string>
#include <vector>

namespace foretone::test {

/// One row: cells by column name.
struct Row {
    std::map<std::string, std::string> cells;
    const std::string& text(const std::string& column) const;  ///< throws std::out_of_range naming the column
    double number(const std::string& column) const;  ///< "inf" allowed; throws on anything that is not a number
    bool has(const std::string& column) const;       ///< the cell is there and not empty
};

/// All rows of tests/data/`file`. Throws std::runtime_error if the file is missing or has no rows.
std::vector<Row> table(const std::string& file);

/// Rows without a header, split at commas.
std::vector<std::vector<double>> plain_table(const std::string& file);

}  // namespace foretone::test
