#include "support/table.hpp"

#include <fstream>
#include <limits>
#include <stdexcept>

namespace foretone::test {
namespace {

std::vector<std::string> split(const std::string& line) {
    std::vector<std::string> cells(1);
    bool quoted = false;
    char before = 0;
    for (const char c : line) {
        const bool doubled = c == '"' && before == '"' && !quoted;  // a quote within quotes
        before = doubled ? 0 : c;
        if (doubled) cells.back() += c;
        if (c == '"')
            quoted = !quoted;
        else if (c == ',' && !quoted)
            cells.emplace_back();
        else if (c != '\r')
            cells.back() += c;
    }
    return cells;
}

std::ifstream open(const std::string& file) {
    std::ifstream in(std::string(FORETONE_TEST_DATA) + "/" + file);
    if (!in) throw std::runtime_error("no test table " + file);
    return in;
}

double to_number(const std::string& text, const std::string& where) {
    if (text == "inf") return std::numeric_limits<double>::infinity();
    std::size_t used = 0;
    const double v = std::stod(text, &used);
    if (used != text.size()) throw std::runtime_error(where + ": not a number: " + text);
    return v;
}

}  // namespace

const std::string& Row::text(const std::string& column) const {
    const auto it = cells.find(column);
    if (it == cells.end()) throw std::out_of_range("no column " + column);
    return it->second;
}

double Row::number(const std::string& column) const { return to_number(text(column), column); }

bool Row::has(const std::string& column) const {
    const auto it = cells.find(column);
    return it != cells.end() && !it->second.empty();
}

std::vector<Row> table(const std::string& file) {
    auto in = open(file);
    std::string line;
    std::getline(in, line);
    const auto names = split(line);
    std::vector<Row> rows;
    while (std::getline(in, line)) {
        if (line.empty()) continue;
        const auto cells = split(line);
        Row row;
        for (std::size_t i = 0; i < names.size() && i < cells.size(); ++i) row.cells[names[i]] = cells[i];
        rows.push_back(std::move(row));
    }
    if (rows.empty()) throw std::runtime_error("no rows in test table " + file);
    return rows;
}

std::vector<std::vector<double>> plain_table(const std::string& file) {
    auto in = open(file);
    std::string line;
    std::vector<std::vector<double>> rows;
    while (std::getline(in, line)) {
        if (line.empty()) continue;
        rows.emplace_back();
        for (const auto& cell : split(line)) rows.back().push_back(to_number(cell, file));
    }
    if (rows.empty()) throw std::runtime_error("no rows in test table " + file);
    return rows;
}

}  // namespace foretone::test
