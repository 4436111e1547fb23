#include "table_rows.hpp"

#include <limits>
#include <sstream>

#include "foretone/base/number.hpp"
#include "foretone/scene/library.hpp"

namespace foretone::job {

std::vector<std::string> table_cells(const std::string& line, char separator) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    for (const char c : line) {
        if (c == '"')
            quoted = !quoted;
        else if (c == separator && !quoted)
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    }
    return cells;
}

std::vector<Row> table_rows(const std::string& table) {
    std::vector<Row> rows;
    for (const auto& file : scene::embedded_tables()) {
        if (file.path != table + ".csv") continue;
        std::istringstream in{std::string(file.text)};
        std::string line;
        std::getline(in, line);
        const auto names = table_cells(line, ',');
        while (std::getline(in, line)) {
            const auto cells = table_cells(line, ',');
            Row row;
            for (std::size_t i = 0; i < names.size() && i < cells.size(); ++i) row[names[i]] = cells[i];
            rows.push_back(std::move(row));
        }
    }
    return rows;
}

double table_number(const std::string& text) {
    if (text == "inf") return std::numeric_limits<double>::infinity();
    return base::number_in(text).value_or(std::numeric_limits<double>::quiet_NaN());
}

double number(const Row& row, const std::string& column) { return table_number(row.at(column)); }

}  // namespace foretone::job
