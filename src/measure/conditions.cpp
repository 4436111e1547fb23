#include "conditions.hpp"

#include <algorithm>
#include <array>

#include "quantity.hpp"

namespace foretone::measure {
namespace {

using optics::Geometry;

bool one_of(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool all_digits(std::string_view text) {
    return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) { return c >= '0' && c <= '9'; });
}

// Lower-case letters, digits, '/', and ':' as '/'; all else left out.
std::string bare(std::string_view text) {
    std::string out;
    for (const char c : lower(text)) {
        if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '/')
            out += c;
        else if (c == ':')
            out += '/';
    }
    return out;
}

bool holds(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

// "ILLUMINANT, D50", "OBSERVER, 2 degree"; "Illumination=D50 ObserverAngle=2": the value after `name` and its mark,
// nothing if it is not there.
std::optional<std::string> part_after(std::string_view text, std::string_view name) {
    const std::string low = lower(text);
    const auto at = low.find(name);
    if (at == std::string::npos) return std::nullopt;
    std::size_t start = at + name.size();
    while (start < text.size() && (text[start] == ' ' || text[start] == ',' || text[start] == '=')) ++start;
    std::size_t end = start;
    while (end < text.size() && text[end] != ' ' && text[end] != ',' && text[end] != ';') ++end;
    if (end == start) return std::nullopt;
    return std::string(text.substr(start, end - start));
}

std::string read_observer(const std::string& text, const Cell& value) {
    const auto found = observer_from(text);
    if (!found)
        throw Refused("observer-unknown", value.line, value.column, shortened(text),
                      "the observer is '" + shortened(text) + "'; it must be 2deg (CIE 1931) or 10deg (CIE 1964)");
    return *found;
}

void read_geometry(const Cell& value, std::optional<Geometry>& out, Notes& notes) {
    const auto word = geometry_from(value.text);
    if (word.geometry)
        out = word.geometry;
    else if (word.sphere_open)
        notes.add(
            "geometry-open", value.line, value.column,
            "the geometry is '" + shortened(value.text) +
                "' without saying whether the specular is included; it stays open: write d/8-included or d/8-excluded");
    else
        notes.add("geometry-unknown", value.line, value.column,
                  "the geometry '" + shortened(value.text) +
                      "' is none of 45/0, d/8-included and d/8-excluded; it stays open");
}

bool read_scale(const Cell& value) {
    const std::string word = bare(value.text);
    if (one_of(word, {"percent", "pct", "0100", "0/100", "100", "percentage"}) || trimmed(value.text) == "%")
        return true;
    if (one_of(word, {"fraction", "fractions", "dec", "decimal", "01", "0/1", "1", "factor"})) return false;
    throw Refused("scale-unknown", value.line, value.column, shortened(value.text),
                  "the scale is '" + shortened(value.text) + "'; it must be percent or fraction");
}

}  // namespace

std::string light_from(std::string_view text) {
    std::string word(trimmed(text));
    for (const std::string_view prefix : {"cie ", "standard ", "illuminant ", "cie-", "ill. "})
        if (lower(word).starts_with(prefix)) word = trimmed(std::string_view(word).substr(prefix.size()));
    const std::string low = lower(word);
    const bool daylight = low.size() == 3 && low[0] == 'd' && all_digits(low.substr(1));
    const bool tube = low.size() >= 2 && low.size() <= 3 && low[0] == 'f' && all_digits(low.substr(1));
    if (daylight || tube || one_of(low, {"a", "b", "c", "e"}) || low.starts_with("led-")) word = base::upper(word);
    return word;
}

std::optional<std::string> observer_from(std::string_view text) {
    std::string word = bare(text);
    for (const std::string_view part : {"cie", "standard", "observer", "degrees", "degree", "deg"})
        while (holds(word, part)) word.erase(word.find(part), part.size());
    if (one_of(word, {"2", "1931", "21931", "19312", "20"})) return "2deg";
    if (one_of(word, {"10", "1964", "101964", "196410", "100"})) return "10deg";
    return std::nullopt;
}

GeometryWord geometry_from(std::string_view text) {
    const std::string word = bare(text);
    const bool in = holds(word, "included") || holds(word, "incl") || holds(word, "sci") || holds(word, "spin") ||
                    holds(word, "di/8") || holds(word, "8/di");
    const bool out = holds(word, "excluded") || holds(word, "excl") || holds(word, "sce") || holds(word, "spex") ||
                     holds(word, "de/8") || holds(word, "8/de");
    const bool sphere = holds(word, "d/8") || holds(word, "8/d") || holds(word, "d/0") || holds(word, "diffuse") ||
                        holds(word, "sphere");
    if (in != out && (sphere || holds(word, "/8") || holds(word, "specular") || one_of(word, {"sci", "sce"})))
        return {in ? Geometry::d8_included : Geometry::d8_excluded, false};
    if (sphere) return {std::nullopt, true};
    // 45°a:0°, 0:45c and the like: letters say how the ring of light is made.
    std::string plain;
    for (const char c : word)
        if ((c >= '0' && c <= '9') || c == '/') plain += c;
    if ((plain == "45/0" || plain == "0/45") && word.size() <= plain.size() + 4) return {Geometry::g45_0, false};
    return {};
}

std::string key_of(std::string_view text) {
    std::string out;
    bool gap = false;
    for (const char c : lower(trimmed(text))) {
        if (c == ' ' || c == '_' || c == '-' || c == '.' || c == '\t') {
            gap = true;
            continue;
        }
        if (gap && !out.empty()) out += '_';
        gap = false;
        out += c;
    }
    return out;
}

std::string_view geometry_word(Geometry geometry) {
    switch (geometry) {
        case Geometry::g45_0:
            return "45/0";
        case Geometry::d8_included:
            return "d/8-included";
        case Geometry::d8_excluded:
            return "d/8-excluded";
    }
    return "";
}

bool Conditions::take(std::string_view key, const Cell& value, Notes& notes) {
    const std::string k = key_of(key);
    refuse_other_readings(key, value);
    if (one_of(k, {"light", "illuminant", "illumination", "illumination_name", "illuminant_name"})) {
        light = light_from(value.text);
    } else if (one_of(k, {"observer", "observer_angle", "standard_observer"})) {
        observer = read_observer(value.text, value);
    } else if (one_of(k, {"geometry", "measurement_geometry", "device_geometry", "measuring_geometry"})) {
        read_geometry(value, geometry, notes);
    } else if (one_of(k, {"scale", "spectral_norm", "reflectance_scale"})) {
        const auto number = Numbers::look(value.text);  // SPECTRAL_NORM is the value of a perfect white: 100 or 1
        percent = read_scale(number ? Cell{number->value == 100 ? "100"
                                           : number->value == 1 ? "1"
                                                                : value.text,
                                           value.line, value.column, false}
                                    : value);
        percent_line = value.line;
    } else if (one_of(k, {"measurement_source", "weighting_function", "computational_parameter"})) {
        for (const char* name : {"illumination=", "illuminant=", "illuminant,"})
            if (const auto l = part_after(value.text, name))
                if (!light_from(*l).starts_with("M"))
                    light = light_from(*l);  // M0 to M3 name a measuring condition, not a light
        for (const char* name : {"observerangle=", "observer=", "observer,"})
            if (const auto o = part_after(value.text, name)) observer = read_observer(*o, value);
    } else if (one_of(k, {"illuminant/observer", "light/observer", "illuminant_observer", "ill_/obs", "ill/obs"})) {
        // "D65/10°", "D65 10"
        const auto mark = value.text.find_first_of("/ ,-");
        if (mark == std::string::npos) return false;
        light = light_from(value.text.substr(0, mark));
        observer = read_observer(std::string(trimmed(std::string_view(value.text).substr(mark + 1), " /,-")), value);
    } else if (one_of(k, {"specular", "specular_component", "specular_mode"})) {
        read_geometry({"d/8 specular " + value.text, value.line, value.column, false}, geometry, notes);
    } else {
        return false;
    }
    return true;
}

void Conditions::state(const Options& options) {
    const auto fill = [](std::string& own, const std::string& stated, const std::string& what) {
        if (stated.empty()) return;
        if (!own.empty() && own != stated)
            throw Refused(what + "-contradicts", 0, 0, stated,
                          "the " + what + " is stated as " + stated + ", but the file says " + shortened(own) +
                              "; one of the two is wrong");
        own = stated;
    };
    fill(light, options.light.empty() ? "" : light_from(options.light), "light");
    fill(observer, options.observer, "observer");
    if (!options.geometry) return;
    if (geometry && *geometry != *options.geometry)
        throw Refused("geometry-contradicts", 0, 0, std::string(geometry_word(*options.geometry)),
                      "the geometry is stated as " + std::string(geometry_word(*options.geometry)) +
                          ", but the file says " + std::string(geometry_word(*geometry)) + "; one of the two is wrong");
    geometry = options.geometry;
}

}  // namespace foretone::measure
