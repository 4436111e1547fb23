// The grammar of CGATS.17 text, as this reader takes it:
//
//   file    = kind line, then tables
//   table   = keyword lines, BEGIN_DATA_FORMAT names END_DATA_FORMAT, keyword lines, BEGIN_DATA rows END_DATA
//   keyword = NAME value...          '#' begins a comment
//
// A row is a line. Rows wrapped over several lines (some writers do so) are joined only if that yields as many rows as
// NUMBER_OF_SETS says: the one place where a count decides anything, and only between joining and refusing. Storage
// always grows with what was read.

#include <algorithm>
#include <array>

#include "foretone/base/number.hpp"
#include "foretone/measure/cgats.hpp"
#include "table.hpp"

namespace foretone::measure {
namespace {

const HowToSay say_in_cgats{
    "add the lines ILLUMINATION_NAME \"D65\" and OBSERVER_ANGLE \"2\" with the light and observer they were computed "
    "for",
    "add the line SPECTRAL_NORM 100 for percent or SPECTRAL_NORM 1 for fractions"};

bool is_word(const Cell& c, std::string_view word) { return c.text == base::upper(word); }

// The separator of a CGATS file that a spreadsheet saved, '\0' for blanks: by what follows BEGIN_DATA_FORMAT and stands
// between the names below it.
char cgats_separator_of(const Lines& lines) {
    for (std::size_t i = 0; i < lines.list.size(); ++i) {
        const std::string line = lower(lines.list[i].text);
        const auto at = line.find("begin_data_format");
        if (at == std::string::npos) continue;
        const std::string after =
            line.substr(at) + (i + 1 < lines.list.size() ? std::string(lines.list[i + 1].text) : "");
        for (const char c : {';', ','})
            if (after.find(c) != std::string::npos) return c;
        return '\0';
    }
    return '\0';
}

class CgatsReader {
public:
    CgatsReader(const Options& stated, Notes& notes)
        : stated_(stated), notes_(notes), numbers_(notes), budget_(stated.most_fields) {}

    void run(const Lines& lines, Readings& out) {
        separator_ = cgats_separator_of(lines);
        if (separator_ != '\0')
            notes_.add("cgats-separated", 1, 1,
                       std::string("the table is separated by '") + separator_ +
                           "', as a spreadsheet saves it; blanks are due");
        for (const auto& line : lines.list) one(line, out);
        if (state_ == State::format) refuse_open("cgats-format-open", "BEGIN_DATA_FORMAT", "END_DATA_FORMAT");
        if (state_ == State::data) refuse_open("cgats-data-open", "BEGIN_DATA", "END_DATA");
        if (tables_ == 0)
            throw Refused(
                "cgats-format-missing", 0, 0, "",
                "there is no BEGIN_DATA ... END_DATA in this CGATS text: it holds no readings, or was cut off");
        if (out.readings.empty())
            throw Refused("readings-none", format_line_, 1, "",
                          "no table holds a reflectance, Lab or XYZ column; columns such as SPECTRAL_NM_400, LAB_L "
                          "LAB_A LAB_B are due");
    }

private:
    enum class State { header, format, data };

    [[noreturn]] void refuse_open(const std::string& id, const std::string& begin, const std::string& end) const {
        throw Refused(id, opened_, 1, begin,
                      begin + " has no " + end + " after it: the file was cut off, and its last line may be too");
    }

    std::vector<Cell> split(const Line& line) {
        if (separator_ == '\0') return unwrapped(line, split_at_blanks(line, notes_, budget_));
        auto cells = split_at(line, separator_, notes_, budget_);
        drop_empty_end(cells);
        if (!cells.empty() && !cells[0].quoted && cells[0].text.starts_with('#')) return {};
        // A keyword line that the spreadsheet took as one cell.
        if (state_ != State::data && cells.size() == 1)
            return split_at_blanks({cells[0].text, line.number}, notes_, budget_);
        return cells;
    }

    // A whole line that a spreadsheet put into quotes: its one cell is the line.
    std::vector<Cell> unwrapped(const Line& line, std::vector<Cell> cells) {
        if (cells.size() != 1 || !cells[0].quoted || cells[0].text.find_first_of(" \t") == std::string::npos)
            return cells;
        if (state_ == State::data && columns_.size() == 1) return cells;
        notes_.add("quotes-doubled", line.number, 1,
                   "the whole line is in quotes, as a spreadsheet does on saving; read without them");
        return split_at_blanks({cells[0].text, line.number}, notes_, budget_);
    }

    void one(const Line& line, Readings& out) {
        if (trimmed(line.text).empty()) return;
        auto cells = split(line);
        if (cells.empty()) return;
        if (state_ == State::header)
            header(cells, out);
        else if (state_ == State::format)
            format(cells, 0);
        else
            data(line, std::move(cells), out);
    }

    void header(const std::vector<Cell>& cells, Readings& out) {
        const auto& first = cells[0];
        if (is_word(first, "BEGIN_DATA_FORMAT")) {
            columns_.clear();
            state_ = State::format;
            opened_ = format_line_ = first.line;
            return format(cells, 1);
        }
        if (is_word(first, "BEGIN_DATA")) {
            if (columns_.empty())
                throw Refused("cgats-format-missing", first.line, first.column, "BEGIN_DATA",
                              "BEGIN_DATA comes before any BEGIN_DATA_FORMAT: the names of the columns are missing");
            state_ = State::data;
            opened_ = first.line;
            rows_.clear();
            if (cells.size() > 1) rows_.push_back({cells.begin() + 1, cells.end()});
            return;
        }
        if (is_word(first, "END_DATA") || is_word(first, "END_DATA_FORMAT"))
            throw Refused("cgats-stray", first.line, first.column, first.text, first.text + " has no BEGIN before it");
        keyword(cells, out);
    }

    void keyword(const std::vector<Cell>& cells, Readings& out) {
        Cell value{"", cells[0].line, cells.size() > 1 ? cells[1].column : cells[0].column, false};
        for (std::size_t i = 1; i < cells.size(); ++i) value.text += (i > 1 ? " " : "") + cells[i].text;
        if (is_word(cells[0], "NUMBER_OF_FIELDS"))
            fields_said_ = value;
        else if (is_word(cells[0], "NUMBER_OF_SETS"))
            sets_said_ = value;
        else if (cells.size() > 1 && !is_word(cells[0], "KEYWORD")) {
            conditions_.take(cells[0].text, value, notes_);
            out.keywords[lower(cells[0].text)] = value.text;
        }
    }

    void format(const std::vector<Cell>& cells, std::size_t from) {
        for (std::size_t i = from; i < cells.size(); ++i) {
            if (is_word(cells[i], "END_DATA_FORMAT")) {
                state_ = State::header;
                if (i + 1 < cells.size() && !cells[i + 1].text.empty())
                    throw Refused("cgats-stray", cells[i + 1].line, cells[i + 1].column, shortened(cells[i + 1].text),
                                  "'" + shortened(cells[i + 1].text) + "' follows END_DATA_FORMAT on its line");
                return;
            }
            if (is_word(cells[i], "BEGIN_DATA"))
                refuse_open("cgats-format-open", "BEGIN_DATA_FORMAT", "END_DATA_FORMAT");
            columns_.push_back(cells[i]);
        }
    }

    void data(const Line& line, std::vector<Cell> cells, Readings& out) {
        const auto end =
            std::find_if(cells.begin(), cells.end(), [](const Cell& c) { return !c.quoted && is_word(c, "END_DATA"); });
        const bool ends = end != cells.end();
        if (ends && end + 1 != cells.end())
            throw Refused("cgats-stray", (end + 1)->line, (end + 1)->column, shortened((end + 1)->text),
                          "'" + shortened((end + 1)->text) + "' follows END_DATA on its line");
        cells.erase(end, cells.end());
        if (separator_ == '\0' && !ends && line.text.find('\t') != std::string_view::npos) by_tabs(line, cells);
        if (separator_ != '\0' && !cells.empty() && cells.size() < columns_.size())
            cells.resize(columns_.size(), Cell{"", line.number, characters(line.text) + 1, false});
        if (!cells.empty()) rows_.push_back(std::move(cells));
        if (ends) {
            state_ = State::header;
            table(out);
        }
    }

    // Names with blanks and no quotes, between tabs: the tabs tell the cells, if their number is right.
    void by_tabs(const Line& line, std::vector<Cell>& cells) {
        Notes unheard;
        auto tabbed = split_at(line, '\t', unheard, budget_);
        drop_empty_end(tabbed);
        if (tabbed.size() != columns_.size()) return;
        if (cells.size() == columns_.size()) {
            for (std::size_t i = 0; i < cells.size(); ++i)
                if (cells[i].text != tabbed[i].text)
                    throw Refused("row-ambiguous", line.number, cells[i].column, shortened(cells[i].text),
                                  "this row has " + std::to_string(cells.size()) +
                                      " cells between tabs and as many between blanks, but not the same ones ('" +
                                      shortened(tabbed[i].text) + "' or '" + shortened(cells[i].text) +
                                      "'); put names into quotes");
            return;
        }
        notes_.add("names-unquoted", line.number, 1,
                   "a text with blanks is not in quotes; the tabs were taken to part the cells");
        cells = std::move(tabbed);
    }

    void join_wrapped() {
        const std::size_t due = columns_.size();
        const auto is_short = [&](const auto& row) { return row.size() < due; };
        const auto said = sets_said_ ? Numbers::look(sets_said_->text) : std::nullopt;
        if (!said || std::none_of(rows_.begin(), rows_.end(), is_short)) return;
        std::vector<std::vector<Cell>> joined;
        for (const auto& row : rows_) {
            if (joined.empty() || joined.back().size() == due) joined.emplace_back();
            if (joined.back().size() + row.size() > due) return;
            joined.back().insert(joined.back().end(), row.begin(), row.end());
        }
        if (joined.back().size() != due || static_cast<double>(joined.size()) != said->value) return;
        notes_.add("rows-wrapped", rows_.front().front().line, 1,
                   "rows run over several lines; they were joined, which yields the " + std::to_string(joined.size()) +
                       " rows that NUMBER_OF_SETS says");
        rows_ = std::move(joined);
    }

    void count(const std::optional<Cell>& said, std::size_t found, const std::string& id, const std::string& what) {
        if (!said) return;
        const auto n = Numbers::look(said->text);
        if (!n || n->value != static_cast<double>(found))
            notes_.add(id, said->line, said->column,
                       "the file says " + shortened(said->text) + " " + what + " and holds " + std::to_string(found) +
                           "; what it holds was read");
    }

    void table(Readings& out) {
        ++tables_;
        join_wrapped();
        for (const auto& row : rows_)
            if (row.size() != columns_.size()) {
                const std::string rest = row.size() < columns_.size() ? "; the first column without one is " +
                                                                            shortened(columns_[row.size()].text)
                                                                      : "";
                throw Refused("row-cells", row.front().line, 1, std::to_string(row.size()),
                              "this row has " + std::to_string(row.size()) + " values, but BEGIN_DATA_FORMAT names " +
                                  std::to_string(columns_.size()) + " columns" + rest);
            }
        count(fields_said_, columns_.size(), "count-fields", "columns (NUMBER_OF_FIELDS)");
        count(sets_said_, rows_.size(), "count-sets", "rows (NUMBER_OF_SETS)");
        fields_said_.reset();
        sets_said_.reset();
        if (rows_.empty()) return notes_.add("table-skipped", opened_, 1, "a table holds no rows; it was left out");
        refuse_twice(columns_, false);
        if (!promise(columns_, false).any())
            return notes_.add("table-skipped", opened_, 1, "a table holds no reflectance, Lab or XYZ; it was left out");
        auto raw = read_columns({columns_, std::move(rows_)}, conditions_, false, numbers_, notes_);
        const std::size_t before = out.readings.size();
        settle(std::move(raw), stated_, say_in_cgats, notes_, out.readings);
        if (before > 0) ++read_tables_;
        if (read_tables_ > 1)
            for (std::size_t i = before; i < out.readings.size(); ++i)
                out.readings[i].tags.emplace("table", std::to_string(tables_));
        rows_.clear();
    }

    const Options& stated_;
    Notes& notes_;
    Numbers numbers_;
    Budget budget_;
    char separator_ = '\0';
    State state_ = State::header;
    std::size_t opened_ = 0, format_line_ = 0, tables_ = 0, read_tables_ = 1;
    std::vector<Cell> columns_;
    std::vector<std::vector<Cell>> rows_;
    std::optional<Cell> fields_said_, sets_said_;
    Conditions conditions_;
};

}  // namespace

Readings read_cgats(std::string_view text, const Options& stated) {
    Notes notes;
    Lines lines;
    clean(text, stated, notes, lines);
    Readings out{"CGATS", {}, {}, {}};
    CgatsReader(stated, notes).run(lines, out);
    out.notes = notes.list();
    return out;
}

}  // namespace foretone::measure
