#include "table.hpp"

#include <set>

#include "foretone/base/number.hpp"

#include "columns.hpp"
#include "quantity.hpp"

namespace foretone::measure {
namespace {

class Builder {
public:
    Builder(const Table& table, const Conditions& conditions, bool plain, Numbers& numbers, Notes& notes)
        : table_(table), conditions_(conditions), plain_(plain), numbers_(numbers), notes_(notes) {}

    RawTable run() {
        look_at_headings();
        for (std::size_t i = 0; i < table_.rows.size(); ++i) row(table_.rows[i], i + 1);
        out_.percent = percent_ ? percent_ : conditions_.percent;
        if (!percent_) out_.said_line = conditions_.percent_line, out_.said_column = 1;
        return std::move(out_);
    }

private:
    void look_at_headings() {
        refuse_twice(table_.headings, plain_);
        has_ = promise(table_.headings, plain_);
        for (std::size_t i = 0; i < table_.headings.size(); ++i) {
            const auto& h = table_.headings[i];
            auto c = column_of(h.text, plain_);
            // A lone L, X or Y is no color and one reflectance no spectrum: columns like any other.
            if ((c.kind >= Column::Kind::lab_l && c.kind <= Column::Kind::lab_b && !has_.lab) ||
                (c.kind >= Column::Kind::xyz_x && c.kind <= Column::Kind::xyz_z && !has_.xyz) ||
                (c.kind >= Column::Kind::delta_l && c.kind <= Column::Kind::delta_b && !has_.delta) ||
                (c.kind == Column::Kind::wavelength && has_.wavelengths == 0))
                c = {};
            under_one_light(c, h);
            if (c.kind == Column::Kind::nothing && i == 0) c.kind = Column::Kind::id;
            if (c.kind == Column::Kind::tag) look_at_tag(h);
            if (c.percent) say_percent(*c.percent, h);
            if (c.kind == Column::Kind::pair_nm) ++pairs_;
            columns_.push_back(c);
        }
        for (std::size_t i = 0; i < columns_.size(); ++i) pair_at(i);
    }

    // Colors under a second light are kept as words: one reading has one.
    void under_one_light(Column& c, const Cell& h) {
        if (c.kind < Column::Kind::lab_l || c.kind > Column::Kind::delta_b) return;
        if (!under_) under_ = c.under();
        if (c.under() != *under_) {
            notes_.add("color-other-light", h.line, h.column,
                       "the column '" + shortened(h.text) +
                           "' is the color a second time, under another light or read otherwise; the first was taken");
            c = {};
            return;
        }
        if (!c.light.empty()) heading_.light = c.light;
        if (!c.observer.empty()) heading_.observer = c.observer;
        if (c.geometry) heading_.geometry = c.geometry;
    }

    // What the headings say of light, observer and geometry is nearer to the values than what the file says.
    void add_heading(Conditions& to) const {
        if (!heading_.light.empty()) to.light = heading_.light;
        if (!heading_.observer.empty()) to.observer = heading_.observer;
        if (heading_.geometry) to.geometry = heading_.geometry;
    }

    // Among wavelengths a heading that is nearly one is asked about: left out, its value would be interpolated over.
    void look_at_tag(const Cell& h) const {
        if (h.text.size() > 3 && Numbers::look(std::string_view(h.text).substr(h.text.size() - 3)))
            quantity_said(h.text, h);  // ABSORBANCE_400
        if (has_.wavelengths == 0) return;
        if (const auto near = nearly_wavelength(h.text))
            throw Refused("wavelength-heading", h.line, h.column, shortened(h.text),
                          "the heading '" + shortened(h.text) + "' is nearly a wavelength" +
                              (near->empty() ? " (200 to 2500 nm)." : "; is it " + *near + "?") +
                              " Write the wavelength, or give the column another name");
    }

    // A wavelength column of the pair form is followed by its value, a value preceded by its wavelength.
    void pair_at(std::size_t i) const {
        const bool nm = columns_[i].kind == Column::Kind::pair_nm, value = columns_[i].kind == Column::Kind::pair_value;
        if ((nm && (i + 1 == columns_.size() || columns_[i + 1].kind != Column::Kind::pair_value)) ||
            (value && (i == 0 || columns_[i - 1].kind != Column::Kind::pair_nm)))
            throw Refused("pair-broken", table_.headings[i].line, table_.headings[i].column,
                          shortened(table_.headings[i].text),
                          "'" + shortened(table_.headings[i].text) +
                              "' has no partner: SPECTRAL_NM is followed by SPECTRAL_PCT or SPECTRAL_DEC");
    }

    void say_percent(bool percent, const Cell& h) {
        if (percent_ && *percent_ != percent)
            throw Refused("scale-mixed", h.line, h.column, shortened(h.text),
                          "one column calls its reflectances percent and another fractions; one table keeps to one");
        percent_ = percent;
        out_.said_line = h.line;
        out_.said_column = h.column;
    }

    void row(const std::vector<Cell>& cells, std::size_t number) {
        RawReading r;
        r.conditions = conditions_;
        add_heading(r.conditions);
        r.reading.line = cells.front().line;
        color::Lab lab, delta;
        color::Xyz xyz;
        std::string id;
        for (std::size_t i = 0; i < cells.size(); ++i) {
            const auto& c = cells[i];
            const auto value = [&](const char* what) { return numbers_.read(c, what).value; };
            switch (columns_[i].kind) {
                case Column::Kind::tag:
                    r.reading.tags[key_of(table_.headings[i].text)] = c.text;
                    break;
                case Column::Kind::name:
                    r.reading.name = c.text;
                    break;
                case Column::Kind::id:
                    id = c.text;
                    break;
                case Column::Kind::nothing:
                    if (!c.text.empty())
                        notes_.add("column-unnamed", c.line, c.column,
                                   "a column without a heading holds '" + shortened(c.text) + "'; it was left out");
                    break;
                case Column::Kind::wavelength:
                    sample(r, columns_[i].nm, c);
                    break;
                case Column::Kind::pair_nm:
                    break;
                case Column::Kind::pair_value:
                    sample(r, wavelength(cells[i - 1]), c);
                    break;
                case Column::Kind::lab_l:
                    lab.l = value("L*");
                    break;
                case Column::Kind::lab_a:
                    lab.a = value("a*");
                    break;
                case Column::Kind::lab_b:
                    lab.b = value("b*");
                    break;
                case Column::Kind::xyz_x:
                    xyz.x = value("X");
                    break;
                case Column::Kind::xyz_y:
                    xyz.y = value("Y");
                    break;
                case Column::Kind::xyz_z:
                    xyz.z = value("Z");
                    break;
                case Column::Kind::delta_l:
                    delta.l = value("ΔL*");
                    break;
                case Column::Kind::delta_a:
                    delta.a = value("Δa*");
                    break;
                case Column::Kind::delta_b:
                    delta.b = value("Δb*");
                    break;
                case Column::Kind::light:
                    r.conditions.take("light", c, notes_);
                    break;
                case Column::Kind::observer:
                    r.conditions.take("observer", c, notes_);
                    break;
                case Column::Kind::geometry:
                    r.conditions.take("geometry", c, notes_);
                    break;
                case Column::Kind::spread:
                    spread(r, c);
                    break;
            }
        }
        if (has_.lab) r.reading.lab = lab;
        if (has_.xyz) r.reading.xyz = xyz;
        if (has_.delta) r.reading.delta = delta;
        name(r, id, number);
        if (pairs_ == 1 && continues(r))
            out_.readings.back().samples.push_back(r.samples.front());
        else
            out_.readings.push_back(std::move(r));
    }

    void sample(RawReading& r, double nm, const Cell& c) {
        const auto v = numbers_.read(c, "the reflectance at " + base::shortest(nm) + " nm");
        r.samples.push_back({nm, v.value, c.line, c.column, v.percent_sign});
    }

    double wavelength(const Cell& c) {
        const double nm = numbers_.read(c, "the wavelength").value;
        if (nm < 200 || nm > 2500)
            throw Refused("wavelength-bad", c.line, c.column, shortened(c.text),
                          "the wavelength is " + shortened(c.text) + " nm; it must be from 200 to 2500");
        return nm;
    }

    void spread(RawReading& r, const Cell& c) {
        if (c.text.empty()) return;
        const double de = numbers_.read(c, "the spread").value;
        if (de < 0 || de > 50)
            throw Refused("spread-range", c.line, c.column, shortened(c.text),
                          "the spread is " + shortened(c.text) + "; one standard deviation in dE is due, from 0 to 50");
        r.reading.spread_de = de;
    }

    void name(RawReading& r, const std::string& id, std::size_t number) {
        if (r.reading.name.empty()) {
            r.reading.name = id.empty() ? std::to_string(number) : id;
            if (id.empty())
                notes_.add("name-missing", r.reading.line, 1,
                           "a reading has no name; it is called '" + r.reading.name + "', its number in the table");
        } else if (!id.empty()) {
            r.reading.tags.emplace("sample_id", id);
        }
    }

    // With one wavelength a row: the same sample goes on as long as the wavelength moves on.
    bool continues(const RawReading& r) const {
        if (out_.readings.empty()) return false;
        const auto& last = out_.readings.back();
        bool named = false;
        for (const auto& c : columns_) named = named || c.kind == Column::Kind::name || c.kind == Column::Kind::id;
        if (named && (last.reading.name != r.reading.name || last.reading.tags != r.reading.tags)) return false;
        const auto& s = last.samples;
        const double step = r.samples.front().nm - s.back().nm;
        return s.size() < 2 ? step != 0 : step * (s[1].nm - s[0].nm) > 0;
    }

    const Table& table_;
    const Conditions& conditions_;
    bool plain_;
    Numbers& numbers_;
    Notes& notes_;
    std::vector<Column> columns_;
    Promise has_;
    Conditions heading_;                ///< what color columns say of themselves
    std::optional<std::string> under_;  ///< of the first color column
    std::size_t pairs_ = 0;
    std::optional<bool> percent_;
    RawTable out_;
};

}  // namespace

Promise promise(const std::vector<Cell>& headings, bool plain_numbers) {
    Promise out;
    int lab = 0, xyz = 0, delta = 0;
    std::optional<std::string> under;
    bool nm = false, value = false;
    for (const auto& h : headings) {
        const auto column = column_of(h.text, plain_numbers);
        const auto kind = column.kind;
        if (kind == Column::Kind::wavelength) ++out.wavelengths;
        if (kind >= Column::Kind::lab_l && kind <= Column::Kind::delta_b) {
            if (!under) under = column.under();
            if (column.under() != *under) continue;
        }
        if (kind == Column::Kind::delta_l) delta |= 1;
        if (kind == Column::Kind::delta_a) delta |= 2;
        if (kind == Column::Kind::delta_b) delta |= 4;
        nm = nm || kind == Column::Kind::pair_nm;
        value = value || kind == Column::Kind::pair_value;
        if (kind == Column::Kind::lab_l) lab |= 1;
        if (kind == Column::Kind::lab_a) lab |= 2;
        if (kind == Column::Kind::lab_b) lab |= 4;
        if (kind == Column::Kind::xyz_x) xyz |= 1;
        if (kind == Column::Kind::xyz_y) xyz |= 2;
        if (kind == Column::Kind::xyz_z) xyz |= 4;
    }
    if (out.wavelengths == 1) out.wavelengths = 0;  // one reflectance is no spectrum
    out.pairs = nm || value;
    out.lab = lab == 7;
    out.xyz = xyz == 7;
    out.delta = delta == 7;
    return out;
}

void refuse_twice(const std::vector<Cell>& headings, bool plain_numbers) {
    std::set<std::string> tags;
    std::set<std::pair<Column::Kind, std::string>> single;
    for (const auto& h : headings) {
        const auto column = column_of(h.text, plain_numbers);
        const auto kind = column.kind;
        if (kind == Column::Kind::wavelength || kind == Column::Kind::pair_nm || kind == Column::Kind::pair_value ||
            kind == Column::Kind::nothing)
            continue;
        if (kind == Column::Kind::tag ? !tags.insert(key_of(h.text)).second
                                      : !single.insert({kind, column.under()}).second)
            throw Refused("column-twice", h.line, h.column, shortened(h.text),
                          "the column '" + shortened(h.text) + "' is there twice; give each its own name");
    }
}

RawTable read_columns(const Table& table, const Conditions& conditions, bool plain_numbers, Numbers& numbers,
                      Notes& notes) {
    return Builder(table, conditions, plain_numbers, numbers, notes).run();
}

}  // namespace foretone::measure
