#include "foretone/scene/readings.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/measure/read.hpp"
#include "foretone/scene/spectrum_file.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::scene {
namespace {

// The first line that is no comment is the heading of a plain spectrum.
bool is_plain_spectrum(std::string_view text) {
    if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
    while (!text.empty()) {
        const auto end = text.find('\n');
        std::string line(text.substr(0, end));
        std::erase_if(line, [](char c) { return c == ' ' || c == '\t' || c == '\r'; });
        if (!line.empty() && line[0] != '#') return line == "wavelength_nm,reflectance";
        if (end == std::string_view::npos) return false;
        text.remove_prefix(end + 1);
    }
    return false;
}

measure::Readings read_from(const std::string& text, const std::string& file, const Library& library,
                            measure::Options stated) {
    stated.white = [&library](const std::string& light, const std::string& observer) -> std::optional<color::Xyz> {
        const auto observers = library.observers();
        if (!library.has_light(light) || std::find(observers.begin(), observers.end(), observer) == observers.end())
            return std::nullopt;
        return color::make_weights(library.illuminant(light), library.observer(observer)).white;
    };
    try {
        auto out = measure::read(text, stated);
        for (const auto& r : out.readings)
            if (!r.light.empty() && !library.has_light(r.light))
                throw InputError("light-unknown", {file, r.line, 1},
                                 "the reading '" + r.name + "' is under '" + r.light + "', a light that is not known." +
                                     suggestion(r.light, library.lights()));
        return out;
    } catch (const measure::Refused& e) {
        throw InputError(e.id, {file, e.line, e.column}, e.what());
    }
}

std::vector<std::string> names_of(const measure::Readings& readings) {
    std::vector<std::string> names;
    for (const auto& r : readings.readings)
        if (std::find(names.begin(), names.end(), r.name) == names.end()) names.push_back(r.name);
    return names;
}

const measure::Reading& choose(const measure::Readings& in, const std::string& file, const std::string& sample) {
    std::vector<const measure::Reading*> found;
    for (const auto& r : in.readings)
        if (sample.empty() || r.name == sample) found.push_back(&r);
    auto names = names_of(in);
    if (found.empty())
        throw InputError("sample-unknown", {file}, "there is no reading '" + sample + "'." + suggestion(sample, names));
    if (found.size() == 1) return *found[0];
    if (!sample.empty() || names.size() == 1)
        throw InputError("readings-several", {file, found[1]->line, 1},
                         std::to_string(found.size()) + " readings are named '" + found[0]->name +
                             "'; one is due here: give them names of their own, or keep one in the file");
    const std::size_t count = names.size();
    if (count > 12) names.resize(12);
    const std::string choices = base::joined(names);
    throw InputError("readings-several", {file, found[1]->line, 1},
                     "the file holds " + std::to_string(found.size()) +
                         " readings and one is due here; sample names one of: " + choices +
                         (count > 12 ? ", ..." : ""));
}

std::string lab_words(const OneReading& r) {
    const auto round2 = [](double v) { return base::shortest(std::round(v * 100) / 100); };
    return fmt::format("lab = [{}, {}, {}], light = \"{}\", observer = \"{}\"", round2(r.lab->l), round2(r.lab->a),
                       round2(r.lab->b), r.light, r.observer);
}

// A text that is nothing known is told what a spectrum's heading would be, and that other files are read too.
spectral::Sampled plain_spectrum(const std::filesystem::path& path, bool plain) {
    try {
        return read_reflectance(read_text(path), path.string());
    } catch (InputError& e) {
        auto problems = e.problems;
        if (!plain && problems[0].id == "spectrum-header")
            problems[0].text += "; or the file is CGATS text, or CSV with wavelengths across";
        throw InputError(std::move(problems));
    }
}

}  // namespace

measure::Readings read_readings(const std::filesystem::path& path, const Library& library, measure::Options stated) {
    const auto text = read_bytes(path, stated.most_bytes);
    return read_from(text, path.string(), library, std::move(stated));
}

std::vector<Problem> notes_of(const measure::Readings& readings, const std::string& file) {
    std::vector<Problem> out;
    for (const auto& n : readings.notes) out.push_back({n.id, {file, n.line, n.column}, n.text});
    return out;
}

OneReading read_one_reading(const std::filesystem::path& path, const Library& library, const std::string& sample) {
    const auto file = path.string();
    const auto text = read_bytes(path, measure::Options().most_bytes);
    const bool other_kind = text.starts_with("PK\x03\x04") || text.starts_with("\xFF\xFE") ||
                            text.starts_with("\xFE\xFF");  // told best by measure
    if (sample.empty() && !other_kind) {
        const bool plain = is_plain_spectrum(text) && !measure::states_more(text);
        if (plain || measure::format_of(text) == measure::Format::unknown) {
            OneReading out;
            out.reflectance = plain_spectrum(path, plain);
            return out;
        }
    }
    const auto in = read_from(text, file, library, {});
    const auto& one = choose(in, file, sample);
    return {one.reflectance, one.lab,      one.delta,          one.light, one.observer,
            one.name,        one.geometry, notes_of(in, file), one.line};
}

OneReflectance read_one_reflectance(const std::filesystem::path& path, const Library& library,
                                    const std::string& sample) {
    const auto one = read_one_reading(path, library, sample);
    if (!one.reflectance)
        throw InputError("reading-without-spectrum", {path.string(), one.line, 1},
                         "the reading '" + one.name + "' has no reflectance over wavelengths" +
                             (one.lab ? "; write it as " + lab_words(one) : ""));
    return {*one.reflectance, one.name, one.geometry, one.notes};
}

}  // namespace foretone::scene
