#include <algorithm>
#include <set>
#include <stdexcept>

#include "columns.hpp"
#include "conditions.hpp"
#include "foretone/base/number.hpp"
#include "foretone/measure/cgats.hpp"
#include "quantity.hpp"

namespace foretone::measure {
namespace {

// Columns are words of capitals, digits and single '_'.
std::string column_word(const std::string& key) {
    std::string out;
    for (const char c : key) {
        const bool small = c >= 'a' && c <= 'z', plain = (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
        if (small || plain)
            out += base::upper(c);
        else if (!out.empty() && out.back() != '_')
            out += '_';
    }
    while (!out.empty() && out.back() == '_') out.pop_back();
    return out;
}

// "ABSORBANCE_400": read as a wavelength of another quantity, which is refused.
bool another_quantity(const std::string& word) {
    try {
        return quantity_said(word, {}) != Quantity::reflectance;
    } catch (const Refused&) {
        return true;
    }
}

// Names for the columns of tags: each its own, and none that would be read as a quantity, a name or a keyword.
std::vector<std::string> tag_columns(const std::set<std::string>& tags) {
    std::vector<std::string> out;
    std::set<std::string> taken;
    for (const auto& t : tags) {
        std::string word = column_word(t);
        const bool keyword =
            word.starts_with("BEGIN_DATA") || word.starts_with("END_DATA") || word.starts_with("NUMBER_OF_");
        if (word.empty() || keyword || column_of(word, false).kind != Column::Kind::tag || nearly_wavelength(word))
            word = word.empty() ? "TAG" : "TAG_" + word;
        if (another_quantity(word)) word += "_TAG";
        const std::string first = word;
        for (int n = 2; !taken.insert(word).second; ++n) word = first + "_" + std::to_string(n);
        out.push_back(word);
    }
    return out;
}

class Writer {
public:
    Writer(const Readings& readings, const CgatsHeader& header) : readings_(readings.readings), header_(header) {}

    std::string run() {
        look();
        std::string body = keywords();
        body += columns();
        body += rows();
        std::string top = "CGATS.17\n\n";
        for (const auto& c : header_.comments) top += "# " + plain(c) + "\n";
        if (replaced_) top += "# In names, quotes are written as ' and control characters as a space.\n";
        return top + body;
    }

private:
    [[noreturn]] static void fail(const std::string& what) { throw std::invalid_argument("write_cgats: " + what); }

    void look() {
        if (readings_.empty()) fail("there are no readings");
        const auto& first = readings_.front();
        spectral_ = lab_ = xyz_ = spread_ = geometry_ = true;
        for (const auto& r : readings_) {
            spectral_ = spectral_ && r.reflectance;
            lab_ = lab_ && r.lab;
            xyz_ = xyz_ && r.xyz;
            spread_ = spread_ && r.spread_de;
            geometry_ = geometry_ && r.geometry && r.geometry == first.geometry;
            for (const auto& [key, value] : r.tags)
                if (key != "sample_id") tags_.insert(key);
        }
        if (!spectral_ && !lab_ && !xyz_) fail("the readings have neither a reflectance, Lab nor XYZ in common");
        for (const auto& r : readings_) {
            if (spectral_) {
                spectral::check(*r.reflectance);
                if (r.reflectance->wavelength_nm != first.reflectance->wavelength_nm)
                    fail("the wavelengths of '" + r.name + "' are not those of '" + first.name + "'");
            }
            if ((lab_ || xyz_) && (r.light != first.light || r.observer != first.observer))
                fail("'" + r.name + "' is under " + r.light + " " + r.observer + ", '" + first.name + "' under " +
                     first.light + " " + first.observer);
        }
    }

    std::string plain(std::string_view text) {
        std::string out;
        for (const char c : text) {
            const auto byte = static_cast<unsigned char>(c);
            const bool control = byte < 0x20 || byte == 0x7F;
            replaced_ = replaced_ || control || c == '"';
            out += control ? ' ' : c == '"' ? '\'' : c;
        }
        return out;
    }
    std::string quoted(std::string_view text) { return '"' + plain(text) + '"'; }

    // A keyword that the standard's first list does not have is declared before it is used.
    std::string line(const std::string& keyword, const std::string& value, bool declared = false) {
        if (value.empty()) return "";
        return (declared ? "KEYWORD \"" + keyword + "\"\n" : "") + keyword + " " + quoted(value) + "\n";
    }

    std::string keywords() {
        const auto& first = readings_.front();
        std::string out = line("ORIGINATOR", header_.originator) + line("DESCRIPTOR", header_.descriptor) +
                          line("CREATED", header_.created);
        if (geometry_) out += line("MEASUREMENT_GEOMETRY", std::string(geometry_word(*first.geometry)));
        if (lab_ || xyz_) {
            out += line("ILLUMINATION_NAME", first.light, true);
            out += line("OBSERVER_ANGLE", first.observer == "10deg" ? "10" : "2", true);
        }
        if (spectral_) out += line("SPECTRAL_NORM", "1", true);
        return out;
    }

    std::string columns() {
        std::vector<std::string> names = {"SAMPLE_ID", "SAMPLE_NAME"};
        for (auto& word : tag_columns(tags_)) names.push_back(std::move(word));
        if (spread_) names.push_back("STDEV_DE");
        if (spectral_)
            for (const double nm : readings_.front().reflectance->wavelength_nm)
                names.push_back("SPECTRAL_NM_" + base::shortest(nm));
        if (xyz_) names.insert(names.end(), {"XYZ_X", "XYZ_Y", "XYZ_Z"});
        if (lab_) names.insert(names.end(), {"LAB_L", "LAB_A", "LAB_B"});
        std::string out = "NUMBER_OF_FIELDS " + std::to_string(names.size()) + "\nBEGIN_DATA_FORMAT\n";
        for (std::size_t i = 0; i < names.size(); ++i) out += (i > 0 ? " " : "") + names[i];
        return out + "\nEND_DATA_FORMAT\n";
    }

    std::string rows() {
        std::string out = "NUMBER_OF_SETS " + std::to_string(readings_.size()) + "\nBEGIN_DATA\n";
        for (std::size_t i = 0; i < readings_.size(); ++i) {
            const auto& r = readings_[i];
            out += std::to_string(i + 1) + " " + quoted(r.name);
            for (const auto& t : tags_) {
                const auto it = r.tags.find(t);
                out += " " + quoted(it == r.tags.end() ? "-" : it->second);
            }
            if (spread_) out += " " + base::fixed(*r.spread_de, 3);
            if (spectral_)
                for (const double v : r.reflectance->value) out += " " + base::fixed(v, 6);
            if (xyz_)
                for (const double v : {r.xyz->x, r.xyz->y, r.xyz->z}) out += " " + base::fixed(v, 4);
            if (lab_)
                for (const double v : {r.lab->l, r.lab->a, r.lab->b}) out += " " + base::fixed(v, 4);
            out += "\n";
        }
        return out + "END_DATA\n";
    }

    const std::vector<Reading>& readings_;
    const CgatsHeader& header_;
    bool spectral_ = false, lab_ = false, xyz_ = false, spread_ = false, geometry_ = false, replaced_ = false;
    std::set<std::string> tags_;
};

}  // namespace

std::string write_cgats(const Readings& readings, const CgatsHeader& header) { return Writer(readings, header).run(); }

}  // namespace foretone::measure
