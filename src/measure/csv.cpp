// Finding the table in a spreadsheet's text. The heading decides the direction: its first cell names wavelengths (they
// run down), or several of its cells are wavelengths, or L, a and b (samples run down). Lines above it are what the
// file says of itself.

#include "foretone/measure/csv.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"

#include "columns.hpp"
#include "quantity.hpp"
#include "separated.hpp"
#include "table.hpp"

namespace foretone::measure {
namespace {

const HowToSay say_in_csv{"add the lines '# light: D65' and '# observer: 2deg' above the table",
                          "add the line '# scale: percent' or '# scale: fraction' above the table"};

using Row = std::vector<Cell>;

bool is_wavelength(const Cell& c) {
    const auto v = Numbers::look(c.text);
    return v && v->value >= 200 && v->value <= 2500;
}

bool all_empty(const Row& row) {
    return std::all_of(row.begin(), row.end(), [](const Cell& c) { return c.text.empty(); });
}

class CsvReader {
public:
    CsvReader(const Options& stated, Notes& notes)
        : stated_(stated), notes_(notes), numbers_(notes), budget_(stated.most_fields) {}

    void run(const Lines& lines, Readings& out) {
        separator_ = separator_of(lines);
        for (const auto& line : lines.list) one(line, out);
        find_heading();
        for (std::size_t i = 0; i < heading_; ++i) above(rows_[i], out);
        const auto& heading = rows_[heading_];
        const bool across = promise(heading, true).any();
        if (across && (heads_wavelengths(heading[0].text) || down_anyway()))
            throw Refused("csv-direction", heading[0].line, heading[0].column, shortened(heading[0].text),
                          "wavelengths stand both in the heading and down the first column; a reflectance has them in "
                          "one direction: a row a sample, or a column a sample");
        RawTable raw = across ? read_across() : read_down();
        if (raw.said_line == 0 && conditions_.percent) raw.said_line = conditions_.percent_line, raw.said_column = 1;
        settle(std::move(raw), stated_, say_in_csv, notes_, out.readings);
    }

private:
    void one(const Line& line, Readings& out) {
        auto text = trimmed(line.text);
        if (text.empty()) return;
        if (text.front() == '#') {
            text.remove_prefix(1);
            if (const auto said = said_in({text, line.number})) take(*said, out);
            return;
        }
        auto cells = split_at(line, separator_, notes_, budget_);
        if (all_empty(cells)) return notes_.add("rows-empty", line.number, 1, "a row of empty cells was left out");
        rows_.push_back(std::move(cells));
    }

    void take(const Said& said, Readings& out) {
        conditions_.take(said.key, said.value, notes_);
        if (!said.key.empty()) out.keywords[key_of(said.key)] = said.value.text;
    }

    // The heading, or without one the first of two rows or more that begin with wavelengths.
    void find_heading() {
        for (heading_ = 0; heading_ < rows_.size(); ++heading_) {
            const auto& row = rows_[heading_];
            if (row.size() < 2) continue;
            if (promise(row, true).any() && !is_wavelength_row(heading_)) return;
            if (heads_wavelengths(row[0].text) && heading_ + 1 < rows_.size()) return;
            if (!is_wavelength_row(heading_)) continue;
            // Rows of numbers: the line above is the heading if it is as long and empty or a word at its start; else
            // there is none.
            if (heading_ > 0 && rows_[heading_ - 1].size() == row.size() && !said_in_cells(rows_[heading_ - 1])) {
                --heading_;
                return;
            }
            return without_heading();
        }
        const auto& first = rows_.empty() ? Cell{} : rows_[0][0];
        throw Refused("csv-heading", first.line, first.column, shortened(first.text),
                      "no line heads a table of readings; a heading has wavelength_nm first and then a column a "
                      "sample, or wavelengths such as 400,410,... across, or L,a,b (or X,Y,Z)");
    }

    bool is_wavelength_row(std::size_t i) const {
        const auto numeric = [&](std::size_t r) {
            return r < rows_.size() && rows_[r].size() >= 2 && is_wavelength(rows_[r][0]) &&
                   Numbers::look(rows_[r][1].text).has_value();
        };
        return numeric(i) && numeric(i + 1);
    }

    // Both directions at once: the first column runs through wavelengths under a heading that has them too.
    bool down_anyway() const {
        const auto k = column_of(rows_[heading_][0].text, true).kind;
        if (k != Column::Kind::nothing && k != Column::Kind::wavelength) return false;
        return heading_ + 2 < rows_.size() && is_wavelength_row(heading_ + 1) && rows_.size() - heading_ > 6;
    }

    void without_heading() {
        const auto& row = rows_[heading_];
        Row heading;
        for (std::size_t i = 0; i < row.size(); ++i)
            heading.push_back({i == 0 ? "wavelength_nm" : std::to_string(i), row[i].line, row[i].column, false});
        notes_.add("heading-missing", row[0].line, 1,
                   "the table has no heading; its first column was taken as wavelengths, its samples are called by "
                   "their number");
        rows_.insert(rows_.begin() + static_cast<std::ptrdiff_t>(heading_), heading);
    }

    // What stands above the heading: a condition, words for the columns, or something that is kept as the file's own
    // words.
    void above(Row row, Readings& out) {
        const bool as_long = row.size() == rows_[heading_].size();
        const auto said = said_in_cells(row);
        if (said && Conditions().take(said->key, said->value, notes_)) return take(*said, out);
        if (as_long && !row[0].text.empty() && heads_wavelengths(rows_[heading_][0].text))
            return labels_.push_back(std::move(row));
        if (said) return take(*said, out);
        notes_.add("lines-left-out", row[0].line, 1,
                   "the line '" + shortened(row[0].text) + "' above the table was left out");
    }

    // Brings a row to the heading's length: empty cells at the end are a spreadsheet's, too few or too many are a
    // fault.
    void fit(Row& row, std::size_t length) {
        if (row.size() > length) {
            Row rest(row.begin() + static_cast<std::ptrdiff_t>(length), row.end());
            if (all_empty(rest)) {
                notes_.add("separators-trailing", row[0].line, rest[0].column,
                           "separators follow the last column; they were left out");
                row.resize(length);
            }
        }
        if (row.size() == length) return;
        std::string hint;
        if (separator_ == ',' && row.size() > length)
            hint =
                ". If commas are decimal signs here, separate the cells by semicolons; a name with a comma goes into "
                "quotes";
        throw Refused("row-cells", row[0].line, 1, std::to_string(row.size()),
                      "this row has " + std::to_string(row.size()) + " cells, the heading in line " +
                          std::to_string(rows_[heading_][0].line) + " has " + std::to_string(length) + hint);
    }

    std::size_t heading_length() {
        auto& heading = rows_[heading_];
        const std::size_t all = heading.size();
        drop_empty_end(heading);
        if (heading.size() < all) {
            // A column without a heading at the end that holds values is a fault of the row, told there.
            notes_.add("separators-trailing", heading[0].line, 1,
                       "separators follow the last column; they were left out");
        }
        return heading.size();
    }

    RawTable read_across() {
        Table table;
        const std::size_t length = heading_length();
        table.headings = rows_[heading_];
        for (std::size_t i = heading_ + 1; i < rows_.size(); ++i) {
            fit(rows_[i], length);
            table.rows.push_back(std::move(rows_[i]));
        }
        if (table.rows.empty())
            throw Refused("readings-none", table.headings[0].line, 1, "", "there is a heading and no row below it");
        return read_columns(table, conditions_, true, numbers_, notes_);
    }

    RawTable read_down() {
        const std::size_t length = heading_length();
        Row names = rows_[heading_];
        RawTable out;
        std::size_t first = heading_ + 1;
        for (; first < rows_.size() && !is_wavelength(rows_[first][0]); ++first) {
            if (const auto near = nearly_wavelength(rows_[first][0].text))
                throw Refused("wavelength-heading", rows_[first][0].line, rows_[first][0].column,
                              shortened(rows_[first][0].text),
                              "'" + shortened(rows_[first][0].text) + "' stands where a wavelength is due" +
                                  (near->empty() ? " (200 to 2500 nm)." : "; is it " + *near + "?"));
            fit(rows_[first], length);
            labels_.push_back(std::move(rows_[first]));
        }
        out.percent = conditions_.percent;
        for (std::size_t c = 1; c < length; ++c) out.readings.push_back(column(c, names, out));
        for (std::size_t i = first; i < rows_.size(); ++i) {
            fit(rows_[i], length);
            const double nm = wavelength(rows_[i][0]);
            for (std::size_t c = 1; c < length; ++c) {
                const auto v = numbers_.read(rows_[i][c], "the reflectance at " + base::shortest(nm) + " nm");
                const bool logs = logs_[c - 1];
                out.readings[c - 1].samples.push_back({nm, logs ? std::pow(10, -v.value) : v.value, rows_[i][c].line,
                                                       rows_[i][c].column, v.percent_sign && !logs});
            }
        }
        if (out.readings.empty() || first >= rows_.size())
            throw Refused("readings-none", names[0].line, 1, "",
                          "there is a heading and no row of wavelength and reflectance below it");
        return out;
    }

    double wavelength(const Cell& c) {
        const double nm = numbers_.read(c, "the wavelength").value;
        if (nm < 200 || nm > 2500)
            throw Refused("wavelength-bad", c.line, c.column, shortened(c.text),
                          "the wavelength is " + shortened(c.text) + " nm; it must be from 200 to 2500");
        return nm;
    }

    // The sample of column `c`: its name, the words beside the wavelengths, and the words of the rows above.
    RawReading column(std::size_t c, const Row& names, RawTable& out) {
        RawReading r;
        r.conditions = conditions_;
        r.reading.line = names[c].line;
        r.reading.name = names[c].text;
        logs_.push_back(quantity_said(names[c].text, names[c]) == Quantity::log_one_over_r);
        if (logs_.back()) worked_back(names[c], out);
        if (const auto percent = percent_said(names[c].text)) {
            if (out.said_line != 0 && out.percent != percent)
                throw Refused(
                    "scale-mixed", names[c].line, names[c].column, shortened(names[c].text),
                    "one column calls its reflectances percent and another fractions; one table keeps to one");
            out.percent = percent;
            out.said_line = names[c].line;
            out.said_column = names[c].column;
        }
        for (const auto& label : labels_) {
            if (label[c].text.empty()) continue;
            const auto kind = column_of(label[0].text, true).kind;
            if (kind == Column::Kind::name)
                r.reading.name = label[c].text;
            else if (!r.conditions.take(label[0].text, label[c], notes_))
                r.reading.tags[key_of(label[0].text)] = label[c].text;
        }
        if (r.reading.name.empty()) {
            r.reading.name = std::to_string(c);
            notes_.add("name-missing", names[c].line, names[c].column,
                       "a column has no name; its reading is called '" + r.reading.name + "', its number in the table");
        }
        return r;
    }

    // log(1/R) becomes R, which is a fraction.
    void worked_back(const Cell& name, RawTable& out) {
        out.percent = false;
        out.said_line = name.line;
        out.said_column = name.column;
        notes_.add("log-one-over-r", name.line, name.column,
                   "the column '" + shortened(name.text) + "' holds log(1/R); it was worked back to reflectance");
    }

    const Options& stated_;
    Notes& notes_;
    Numbers numbers_;
    Budget budget_;
    char separator_ = ',';
    std::vector<bool> logs_;  ///< of each sample's column: it holds log(1/R)
    std::vector<Row> rows_;
    std::vector<Row> labels_;  ///< rows of words for the columns
    std::size_t heading_ = 0;
    Conditions conditions_;
};

}  // namespace

Readings read_csv(std::string_view text, const Options& stated) {
    Notes notes;
    Lines lines;
    clean(text, stated, notes, lines);
    Readings out{"CSV", {}, {}, {}};
    CsvReader(stated, notes).run(lines, out);
    out.notes = notes.list();
    return out;
}

}  // namespace foretone::measure
