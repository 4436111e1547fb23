// A line of a list is a name and three numbers. The separator is the first of tab, ';', ',' and blank with which every
// line is one; with commas the name or a decimal point must be there, because 82,1,3,2 could be a name and three
// numbers or two numbers with decimal commas.

#include "foretone/measure/lab_list.hpp"

#include <algorithm>

#include "columns.hpp"
#include "raw.hpp"
#include "separated.hpp"

namespace foretone::measure {
namespace {

const HowToSay say_in_lab_list{"add the lines 'light: D65' and 'observer: 2deg' above the list", ""};

using Row = std::vector<Cell>;

// The words of a heading: name L a b.
bool is_heading(const Row& row) {
    if (row.size() < 3) return false;
    const auto kind = [&](std::size_t from_end) { return column_of(row[row.size() - from_end].text, true).kind; };
    return kind(3) == Column::Kind::lab_l && kind(2) == Column::Kind::lab_a && kind(1) == Column::Kind::lab_b;
}

bool is_reading(const Row& row, bool blanks) {
    if (row.size() < 3 || (!blanks && row.size() > 4)) return false;
    return std::all_of(row.end() - 3, row.end(), [](const Cell& c) { return Numbers::look(c.text).has_value(); });
}

class LabListReader {
public:
    LabListReader(const Options& stated, Notes& notes)
        : stated_(stated), notes_(notes), numbers_(notes), budget_(stated.most_fields) {}

    void run(const Lines& lines, Readings& out) {
        for (const auto& line : lines.list) sort_line(line, out);
        if (list_.empty())
            throw Refused("readings-none", 0, 0, "", "there is no line with a name and three numbers L* a* b*");
        choose_separator();
        RawTable table;
        for (const auto& line : list_) table.readings.push_back(reading(line, table.readings.size() + 1));
        settle(std::move(table), stated_, say_in_lab_list, notes_, out.readings);
    }

private:
    void sort_line(const Line& line, Readings& out) {
        auto text = trimmed(line.text);
        if (text.empty()) return;
        const bool comment = text.front() == '#';
        if (comment) text = trimmed(text.substr(1));
        if (const auto said = said_in({text, line.number})) {
            conditions_.take(said->key, said->value, notes_);
            out.keywords[key_of(said->key)] = said->value.text;
        } else if (!comment) {
            list_.push_back({text, line.number});
        }
    }

    Row split(const Line& line, char separator) {
        Notes unheard;
        if (separator == ' ') return split_at_blanks(line, unheard, budget_);
        auto cells = split_at(line, separator, unheard, budget_);
        drop_empty_end(cells);
        return cells;
    }

    // How many lines are readings with this separator, the heading aside; the first that is none is kept for the
    // message.
    std::size_t fitting(char separator, Line& first_other) {
        std::size_t n = 0;
        for (std::size_t i = 0; i < list_.size(); ++i) {
            Row row;
            try {
                row = split(list_[i], separator);
            } catch (const Refused& e) {
                if (e.id == "fields-too-many") throw;
            }
            if (is_reading(row, separator == ' ') || (i == 0 && is_heading(row)))
                ++n;
            else if (first_other.number == 0)
                first_other = list_[i];
        }
        return n;
    }

    void choose_separator() {
        std::size_t most = 0;
        Line fault{"", 0};
        for (const char separator : {'\t', ';', ',', ' '}) {
            if (separator != ' ' && list_[0].text.find(separator) == std::string_view::npos) continue;
            Line other{"", 0};
            budget_ = Budget(stated_.most_fields);
            const std::size_t n = fitting(separator, other);
            if (n == list_.size()) {
                separator_ = separator;
                budget_ = Budget(stated_.most_fields);
                if (const auto heading = split(list_[0], separator); is_heading(heading)) {
                    take_heading(heading);
                    list_.erase(list_.begin());
                }
                if (list_.empty())
                    throw Refused("readings-none", 0, 0, "", "there is a heading and no line of readings below it");
                return;
            }
            if (n > most || fault.number == 0) most = n, fault = other;
        }
        throw Refused("lab-line", fault.number, 1, shortened(fault.text),
                      "the line '" + shortened(fault.text) +
                          "' is no name and three numbers L* a* b*, separated by blanks, tabs or semicolons");
    }

    // "L*(D65/10°)" in the heading says under what the list's colors are.
    void take_heading(const Row& heading) {
        const auto l = column_of(heading[heading.size() - 3].text, true);
        if (!l.light.empty()) conditions_.light = l.light;
        if (!l.observer.empty()) conditions_.observer = l.observer;
        if (l.geometry) conditions_.geometry = l.geometry;
    }

    RawReading reading(const Line& line, std::size_t number) {
        auto cells =
            separator_ == ' ' ? split_at_blanks(line, notes_, budget_) : split_at(line, separator_, notes_, budget_);
        if (separator_ != ' ' && drop_empty_end(cells))
            notes_.add("separators-trailing", line.number, 1, "separators follow the last value; they were left out");
        if (separator_ == ',') refuse_plain_numbers(line, cells);
        RawReading r;
        r.conditions = conditions_;
        r.reading.line = line.number;
        for (std::size_t i = 0; i + 3 < cells.size(); ++i) r.reading.name += (i > 0 ? " " : "") + cells[i].text;
        if (r.reading.name.empty()) {
            r.reading.name = std::to_string(number);
            notes_.add("name-missing", line.number, 1,
                       "a reading has no name; it is called '" + r.reading.name + "', its number in the list");
        }
        const auto value = [&](std::size_t from_end, const char* what) {
            return numbers_.read(cells[cells.size() - from_end], what).value;
        };
        const double l = value(3, "L*"), a = value(2, "a*"), b = value(1, "b*");
        r.reading.lab = color::Lab{l, a, b};
        return r;
    }

    static void refuse_plain_numbers(const Line& line, const Row& cells) {
        for (const auto& c : cells)
            if (!Numbers::look(c.text) || c.text.find('.') != std::string::npos) return;
        throw Refused("lab-ambiguous", line.number, 1, shortened(line.text),
                      "'" + shortened(line.text) +
                          "' is whole numbers between commas: it could be numbers with decimal commas; separate the "
                          "values by semicolons, or write decimal points");
    }

    const Options& stated_;
    Notes& notes_;
    Numbers numbers_;
    Budget budget_;
    char separator_ = ' ';
    std::vector<Line> list_;
    Conditions conditions_;
};

}  // namespace

Readings read_lab_list(std::string_view text, const Options& stated) {
    Notes notes;
    Lines lines;
    clean(text, stated, notes, lines);
    Readings out{"Lab list", {}, {}, {}};
    LabListReader(stated, notes).run(lines, out);
    out.notes = notes.list();
    return out;
}

}  // namespace foretone::measure
