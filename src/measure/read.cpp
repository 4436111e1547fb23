#include "foretone/measure/read.hpp"

#include <algorithm>

#include "argyll_text.hpp"
#include "columns.hpp"
#include "conditions.hpp"
#include "foretone/measure/cgats.hpp"
#include "foretone/measure/csv.hpp"
#include "foretone/measure/cxf.hpp"
#include "foretone/measure/lab_list.hpp"
#include "quantity.hpp"
#include "separated.hpp"
#include "table.hpp"

namespace foretone::measure {
namespace {

// A heading, or a row of data, stands within the first lines.
constexpr std::size_t lines_looked_at = 200;

bool is_cgats(const Lines& lines) {
    std::size_t looked = 0;
    for (const auto& line : lines.list) {
        auto text = trimmed(line.text);
        while (text.starts_with('"')) text.remove_prefix(1);
        if (text.empty()) continue;
        const std::string low = lower(text.substr(0, 20));
        if (looked == 0 && (low.starts_with("cgats") || low.starts_with("iso28178") || low.starts_with("iso 28178")))
            return true;
        if (low.starts_with("begin_data")) return true;
        if (++looked > lines_looked_at) break;
    }
    return false;
}

// ABSORBANCE_400, ABSORBANCE_410 …: three numbers behind a name, which would else be taken for Lab.
void refuse_other_headings(const std::vector<Cell>& cells) {
    for (const auto& c : cells)
        if (c.text.size() > 3 && Numbers::look(std::string_view(c.text).substr(c.text.size() - 3)))
            quantity_said(c.text, c);
}

// Hunter's L, a, b are another scale, whose numbers look alike.
void refuse_hunter(const std::vector<Cell>& cells) {
    for (const auto& c : cells)
        if (cells.size() >= 3 && lower(c.text).starts_with("hunter"))
            throw Refused("lab-hunter", c.line, c.column, shortened(c.text),
                          "'" + shortened(c.text) +
                              "' is Hunter's scale, not CIELAB; have the instrument export L*, a*, b* "
                              "(CIE 1976), or the reflectance");
}

Format look(const Lines& lines) {
    if (is_cxf(lines)) return Format::cxf;
    if (is_argyll_text(lines)) return Format::argyll;
    if (is_cgats(lines)) return Format::cgats;
    const char separator = separator_of(lines);
    Notes unheard;
    std::size_t looked = 0;
    bool numbers_before = false;
    Format list = Format::unknown;
    for (const auto& line : lines.list) {
        const auto text = trimmed(line.text);
        if (text.empty() || text.front() == '#') continue;
        if (++looked > lines_looked_at) break;
        Budget budget(100'000);
        std::vector<Cell> cells, words;
        try {
            cells = split_at(line, separator, unheard, budget);
            words = split_at_blanks(line, unheard, budget);
        } catch (const Refused&) {
            continue;  // the reader tells it, if another line says which reader
        }
        if (looked == 1) refuse_other_headings(cells);
        refuse_hunter(cells);
        if (cells.size() >= 2 && (promise(cells, true).any() || heads_wavelengths(cells[0].text))) return Format::csv;
        const auto wavelength = Numbers::look(cells[0].text);
        const bool numbers = cells.size() >= 2 && wavelength && wavelength->value >= 200 && wavelength->value <= 2500 &&
                             Numbers::look(cells[1].text);
        if (numbers && numbers_before) return Format::csv;
        numbers_before = numbers;
        const auto three = [](const std::vector<Cell>& row) {
            return row.size() >= 3 && Numbers::look(row[row.size() - 1].text) &&
                   Numbers::look(row[row.size() - 2].text) && Numbers::look(row[row.size() - 3].text);
        };
        const auto lab_heading = [](const std::vector<Cell>& row) { return row.size() >= 3 && promise(row, true).lab; };
        if (lab_heading(words) || (list == Format::unknown && !numbers && (three(words) || three(cells))))
            list = Format::lab_list;
    }
    return list;
}

}  // namespace

Format format_of(std::string_view text) {
    Notes notes;
    Lines lines;
    try {
        clean(text, {}, notes, lines);
        return look(lines);
    } catch (const Refused&) {
        return Format::unknown;
    }
}

bool states_more(std::string_view text) {
    for (std::size_t number = 1; !text.empty(); ++number) {
        const auto end = std::min(text.find('\n'), text.size());
        auto line = trimmed(text.substr(0, end));
        text.remove_prefix(std::min(end + 1, text.size()));
        if (!line.starts_with('#')) continue;
        line.remove_prefix(1);
        const auto said = said_in({line, number});
        if (!said) continue;
        const auto key = key_of(said->key);
        for (const std::string_view word : {"scale", "spectral_norm", "quantity", "measurement", "filter", "polari"})
            if (key.find(word) != std::string::npos) return true;
    }
    return false;
}

Readings read(std::string_view text, const Options& stated) {
    Format format;
    std::string first;
    {
        Notes notes;
        Lines lines;
        clean(text, stated, notes, lines);
        format = look(lines);
        for (const auto& line : lines.list)
            if (first.empty()) first = shortened(trimmed(line.text));
    }
    switch (format) {
        case Format::cgats:
            return read_cgats(text, stated);
        case Format::csv:
            return read_csv(text, stated);
        case Format::lab_list:
            return read_lab_list(text, stated);
        case Format::cxf:
            return read_cxf(text, stated);
        case Format::argyll:
            return read_argyll_text(text, stated);
        case Format::unknown:
            break;
    }
    throw Refused("format-unknown", 1, 1, first,
                  "this text, which begins '" + first +
                      "', is none of the readings known: CGATS text (BEGIN_DATA_FORMAT ...), CSV with wavelengths down "
                      "(wavelength_nm first) or across (400,410,... in the heading) or with L,a,b, a list of a name "
                      "and L* a* b* in each line, CxF3, or what spotread prints");
}

}  // namespace foretone::measure
