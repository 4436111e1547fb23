#include "columns.hpp"

#include <algorithm>
#include <string>
#include <utility>

#include "foretone/base/number.hpp"

#include "conditions.hpp"
#include "foretone/base/text.hpp"
#include "heading.hpp"
#include "text.hpp"

namespace foretone::measure {
namespace {

// Wavelengths that an instrument for surface colors may list, nm.
constexpr double least_nm = 200, most_nm = 2500;

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

// Names that stand before the number, longest first, and what each says of percent.
struct Prefix {
    std::string_view word;
    std::optional<bool> percent;
};
constexpr Prefix prefixes[] = {{"spectral_reflectance", {}},
                               {"spectral_pct", true},
                               {"spectral_dec", false},
                               {"reflectance_pct", true},
                               {"spectral_nm", {}},
                               {"spectrum_nm", {}},
                               {"reflectance", {}},
                               {"wavelength", {}},
                               {"spectral", {}},
                               {"spectrum", {}},
                               {"lambda", {}},
                               {"spec", {}},
                               {"refl", {}},
                               {"%r", true},
                               {"r%", true},
                               {"nm", {}},
                               {"r", {}}};

std::string_view without_gaps(std::string_view text) {
    while (!text.empty() && (text.front() == '_' || text.front() == ' ' || text.front() == '-')) text.remove_prefix(1);
    return text;
}

// "400", "400.0", "400.000000", with an optional "nm" behind; nothing if there is more, or if it is no wavelength.
std::optional<double> only_wavelength(std::string_view text, bool& unit) {
    if (text.empty() || text.front() < '0' || text.front() > '9') return std::nullopt;
    std::string plain(text);
    std::replace(plain.begin(), plain.end(), ',', '.');
    const auto [nm, length, out_of_range] = base::leading_number(plain, base::Exponent::left);
    if (length == 0 || out_of_range || nm < least_nm || nm > most_nm) return std::nullopt;
    const auto rest = without_gaps(std::string_view(plain).substr(length));
    unit = rest == "nm";
    if (!rest.empty() && !unit) return std::nullopt;
    return nm;
}

}  // namespace

std::optional<bool> percent_said(std::string_view heading) {
    const std::string low = lower(heading);
    // "5 % dye" is an amount, not a unit: no number stands before a unit.
    const auto has = [&](std::string_view part) {
        const auto at = low.find(part);
        if (at == std::string::npos) return false;
        const auto before = low.find_last_not_of(" _", at == 0 ? 0 : at - 1);
        return at == 0 || before == std::string::npos || low[before] < '0' || low[before] > '9';
    };
    const bool percent = has("%") || has("percent") || has("pct") || has("(0-100)");
    const bool fraction = has("fraction") || has("decimal") || has("(0-1)") || has("spectral_dec");
    if (percent == fraction) return std::nullopt;
    return percent;
}

bool heads_wavelengths(std::string_view heading) {
    std::string low = key_of(heading);
    std::erase_if(low, [](char c) { return c == '(' || c == ')' || c == '[' || c == ']' || c == '/'; });
    return is_one_of(low, {"wavelength", "wavelength_nm", "wavelengths", "wavelengthnm", "wavelengths_nm", "nm",
                           "lambda", "lambda_nm", "\xCE\xBB", "\xCE\xBB_nm", "wl", "wl_nm", "wave", "spectral_nm"});
}

std::optional<Column> wavelength_column(std::string_view heading, bool plain_numbers) {
    std::string low = lower(trimmed(heading));
    Column out{Column::Kind::wavelength, 0, std::nullopt};
    bool unit = false;
    if (low.ends_with('%')) {
        out.percent = true;
        low = trimmed(std::string_view(low).substr(0, low.size() - 1));
    }
    if (const auto nm = only_wavelength(low, unit)) {
        if (!unit && !plain_numbers) return std::nullopt;
        out.nm = *nm;
        return out;
    }
    for (const auto& p : prefixes) {
        if (!low.starts_with(p.word)) continue;
        if (const auto nm = only_wavelength(without_gaps(std::string_view(low).substr(p.word.size())), unit)) {
            out.nm = *nm;
            if (p.percent) out.percent = p.percent;
            return out;
        }
    }
    return std::nullopt;
}

std::optional<std::string> nearly_wavelength(std::string_view heading) {
    std::string_view word = trimmed(heading);
    std::string low = lower(word);
    bool worded = false;
    for (const auto& p : prefixes)
        if (p.word.size() > 2 && low.starts_with(p.word)) {
            worded = true;
            low = without_gaps(std::string_view(low).substr(p.word.size()));
            break;
        }
    if (low.ends_with("nm")) low = trimmed(std::string_view(low).substr(0, low.size() - 2));
    const auto is_digit = [](char c) { return c >= '0' && c <= '9'; };
    if (low.empty() || !is_digit(low.front())) return std::nullopt;
    const std::string before = low;
    for (auto& c : low) {
        constexpr std::pair<char, char> alike[] = {{'o', '0'}, {'l', '1'}, {'i', '1'}};
        for (const auto& [letter, digit] : alike)
            if (c == letter) c = digit;
    }
    bool unit = false;
    const bool wavelength = only_wavelength(low, unit).has_value();
    if (low != before) return wavelength && low.size() >= 3 ? std::optional(low) : std::nullopt;
    // All digits: a wavelength's word with a number that is none; three digits or more, as "R_1" is a repeat.
    return worded && !wavelength && low.size() >= 3 && std::all_of(low.begin(), low.end(), is_digit)
               ? std::optional(std::string())
               : std::nullopt;
}

namespace {

// The three letters of a difference, however the delta is written.
std::optional<Column::Kind> difference_of(std::string_view word) {
    std::string low = base::replaced(word, "\xCE\x94", "d");  // Greek delta, the sign for an increment, a triangle
    low = base::replaced(base::replaced(low, "\xE2\x88\x86", "d"), "\xE2\x96\xB3", "d");
    low = lower(low);
    if (low.starts_with("delta")) low = "d" + low.substr(5);
    std::erase_if(low, [](char c) { return c == '*' || c == ' ' || c == '_' || c == '-'; });
    if (low == "dl") return Column::Kind::delta_l;
    if (low == "da") return Column::Kind::delta_a;
    if (low == "db") return Column::Kind::delta_b;
    return std::nullopt;
}

Column plain_column_of(std::string_view heading, bool plain_numbers) {
    const std::string word(trimmed(heading));
    if (word.empty()) return {Column::Kind::nothing, 0, std::nullopt};
    if (const auto w = wavelength_column(word, plain_numbers)) return *w;
    std::string key = key_of(word);
    if (is_one_of(key, {"sample_name", "samplename", "name", "sample", "patch", "board"}))
        return {Column::Kind::name, 0, std::nullopt};
    if (is_one_of(key, {"sample_id", "sampleid", "id", "no", "nr", "number", "#"}))
        return {Column::Kind::id, 0, std::nullopt};
    if (is_one_of(key, {"spectral_nm", "spectrum_nm"})) return {Column::Kind::pair_nm, 0, std::nullopt};
    if (key == "spectral_pct") return {Column::Kind::pair_value, 0, true};
    if (key == "spectral_dec") return {Column::Kind::pair_value, 0, false};
    if (is_one_of(key, {"light", "illuminant"})) return {Column::Kind::light, 0, std::nullopt};
    if (key == "observer") return {Column::Kind::observer, 0, std::nullopt};
    if (key == "geometry") return {Column::Kind::geometry, 0, std::nullopt};
    if (is_one_of(key, {"stdev_de", "spread_de", "spread", "sd_de", "sd"}))
        return {Column::Kind::spread, 0, std::nullopt};
    std::erase(key, '*');
    constexpr std::pair<std::string_view, Column::Kind> values[] = {
        {"lab_l", Column::Kind::lab_l},    {"lab_a", Column::Kind::lab_a},    {"lab_b", Column::Kind::lab_b},
        {"xyz_x", Column::Kind::xyz_x},    {"xyz_y", Column::Kind::xyz_y},    {"xyz_z", Column::Kind::xyz_z},
        {"cie_l", Column::Kind::lab_l},    {"cie_a", Column::Kind::lab_a},    {"cie_b", Column::Kind::lab_b},
        {"cielab_l", Column::Kind::lab_l}, {"cielab_a", Column::Kind::lab_a}, {"cielab_b", Column::Kind::lab_b}};
    if (const auto difference = difference_of(word)) return {*difference, 0, std::nullopt};
    for (const auto& [name, kind] : values)
        if (key == name) return {kind, 0, std::nullopt};
    // Plain letters: L or L* in either case, but a X is not an x (a chromaticity).
    if (plain_numbers) {
        if (is_one_of(word, {"L", "L*", "l", "l*"})) return {Column::Kind::lab_l, 0, std::nullopt};
        if (is_one_of(word, {"a", "a*"})) return {Column::Kind::lab_a, 0, std::nullopt};
        if (is_one_of(word, {"b", "b*"})) return {Column::Kind::lab_b, 0, std::nullopt};
        if (word == "X") return {Column::Kind::xyz_x, 0, std::nullopt};
        if (word == "Y") return {Column::Kind::xyz_y, 0, std::nullopt};
        if (word == "Z") return {Column::Kind::xyz_z, 0, std::nullopt};
    }
    return {Column::Kind::tag, 0, std::nullopt};
}

bool tells_color(Column::Kind kind) { return kind >= Column::Kind::lab_l && kind <= Column::Kind::delta_b; }

}  // namespace

Column column_of(std::string_view heading, bool plain_numbers) {
    auto out = plain_column_of(heading, plain_numbers);
    if (out.kind != Column::Kind::tag) return out;
    const auto dressed = undress(heading);
    if (!dressed) return out;
    // A light or a bracket behind a letter says that it is a color's, in any kind of file.
    auto inner = plain_column_of(dressed->base, true);
    if (!tells_color(inner.kind) && inner.kind != Column::Kind::wavelength) return out;
    if (tells_color(inner.kind) && !plain_numbers && dressed->light.empty() &&
        dressed->base.find('*') == std::string::npos)
        return out;
    if (inner.kind == Column::Kind::wavelength && !plain_numbers && base::number_in(dressed->base)) return out;
    if (dressed->percent) inner.percent = dressed->percent;
    inner.light = dressed->light;
    inner.observer = dressed->observer;
    inner.geometry = dressed->geometry;
    return inner;
}

}  // namespace foretone::measure
