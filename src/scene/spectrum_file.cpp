#include "foretone/scene/spectrum_file.hpp"

#include <charconv>
#include <cmath>

#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {

struct Cell {
    std::string_view text;
    std::size_t column;  // 1-based, in characters
};

std::vector<Cell> cells_of(std::string_view line) {
    std::vector<Cell> out;
    std::size_t start = 0;
    while (true) {
        const std::size_t comma = line.find(',', start);
        std::string_view cell = line.substr(start, comma == std::string_view::npos ? comma : comma - start);
        std::size_t column = start + 1;
        while (!cell.empty() && (cell.front() == ' ' || cell.front() == '\t')) {
            cell.remove_prefix(1);
            ++column;
        }
        while (!cell.empty() && (cell.back() == ' ' || cell.back() == '\t')) cell.remove_suffix(1);
        out.push_back({cell, column});
        if (comma == std::string_view::npos) return out;
        start = comma + 1;
    }
}

std::string joined(const std::vector<std::string>& words) {
    std::string text;
    for (const auto& w : words) text += (text.empty() ? "" : ",") + w;
    return text;
}

double to_number(const Cell& cell, const Place& place) {
    double v = 0;
    const char* end = cell.text.data() + cell.text.size();
    const auto read = std::from_chars(cell.text.data(), end, v);
    if (read.ec != std::errc() || read.ptr != end)
        throw InputError("spectrum-number", place,
                         "'" + std::string(cell.text.substr(0, 40)) + "' is not a number (decimal point, no unit)");
    if (!std::isfinite(v))
        throw InputError("spectrum-not-finite", place, "'" + std::string(cell.text) + "' is not a finite number");
    return v;
}

class ColumnsReader {
public:
    ColumnsReader(const std::string& file, const std::vector<std::string>& columns) : file_(file), columns_(columns) {}

    void line(std::string_view text, std::size_t number) {
        if (text.empty()) return;
        if (text.front() == '#') {
            text.remove_prefix(1);
            if (!text.empty() && text.front() == ' ') text.remove_prefix(1);
            out.comments.emplace_back(text);
            return;
        }
        const auto cells = cells_of(text);
        if (out.columns.empty()) return header(cells, number);
        row(cells, number);
    }

    NumberTable out;

private:
    void header(const std::vector<Cell>& cells, std::size_t number) {
        for (const auto& c : cells) out.columns.emplace_back(c.text);
        if (out.columns != columns_)
            throw InputError(
                "spectrum-header", {file_, number, 1},
                "the header reads '" + joined(out.columns).substr(0, 60) + "'; it must be '" + joined(columns_) + "'");
    }

    void row(const std::vector<Cell>& cells, std::size_t number) {
        if (cells.size() != columns_.size())
            throw InputError("spectrum-cells", {file_, number, 1},
                             "this row has " + std::to_string(cells.size()) + " values; " +
                                 std::to_string(columns_.size()) + " are due (" + joined(columns_) + ")");
        std::vector<double> values;
        for (const auto& c : cells) values.push_back(to_number(c, {file_, number, c.column}));
        if (!out.rows.empty() && !(values[0] > out.rows.back()[0]))
            throw InputError("spectrum-order", {file_, number, cells[0].column},
                             "wavelength " + number_text(values[0]) + " does not rise above the " +
                                 number_text(out.rows.back()[0]) +
                                 " before it; rows must be in rising order, each wavelength once");
        out.rows.push_back(std::move(values));
        out.lines.push_back(number);
    }

    static std::string number_text(double v) { return scene::number(v); }

    const std::string& file_;
    const std::vector<std::string>& columns_;
};

}  // namespace

NumberTable read_table(std::string_view text, const std::string& file, const std::vector<std::string>& columns) {
    ColumnsReader reader(file, columns);
    std::size_t number = 0;
    while (!text.empty()) {
        const std::size_t end = text.find('\n');
        std::string_view line = text.substr(0, end);
        if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
        reader.line(line, ++number);
        if (end == std::string_view::npos) break;
        text.remove_prefix(end + 1);
    }
    if (reader.out.columns.empty())
        throw InputError("spectrum-header", {file},
                         "there is no header; the first line after the comments must be '" + joined(columns) + "'");
    if (reader.out.rows.size() < 2)
        throw InputError("spectrum-short", {file}, "there are fewer than two rows of values");
    return std::move(reader.out);
}

spectral::Sampled read_reflectance(std::string_view text, const std::string& file) {
    const auto table = read_table(text, file, {"wavelength_nm", "reflectance"});
    spectral::Sampled s;
    double largest = 0;
    for (const auto& row : table.rows) largest = std::max(largest, row[1]);
    for (std::size_t i = 0; i < table.rows.size(); ++i) {
        const double nm = table.rows[i][0], r = table.rows[i][1];
        const Place place{file, table.lines[i], 1};
        if (r > 1 && largest > 1.5)
            throw InputError("spectrum-percent", place,
                             "reflectance " + number(r) + " looks like percent; fractions from 0 to 1 are due (" +
                                 number(r) + " % is " + number(r / 100) + ")");
        if (r < 0 || r > 1)
            throw InputError("spectrum-range", place, "reflectance " + number(r) + " is outside 0 to 1");
        if (i > 0 && nm > 400 && table.rows[i - 1][0] < 700 && nm - table.rows[i - 1][0] > 20 + 1e-9)
            throw InputError(
                "spectrum-coarse", place,
                "the step from " + number(table.rows[i - 1][0]) + " to " + number(nm) + " nm is wider than 20 nm");
        s.wavelength_nm.push_back(nm);
        s.value.push_back(r);
    }
    if (s.first_nm() > 400 || s.last_nm() < 700)
        throw InputError("spectrum-range-nm", {file, table.lines.front(), 1},
                         "the readings run from " + number(s.first_nm()) + " to " + number(s.last_nm()) +
                             " nm; at least 400 to 700 nm is needed");
    return s;
}

}  // namespace foretone::scene
