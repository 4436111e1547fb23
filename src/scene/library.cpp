#include "foretone/scene/library.hpp"

#include <algorithm>
#include <mutex>

#include "foretone/base/number.hpp"
#include "foretone/scene/material_file.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/spectrum_file.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/spectral/temperature.hpp"
#include "foretone/scene/trade_words.hpp"

namespace foretone::scene {
namespace {

constexpr std::string_view light_folder = "illuminants", observer_folder = "observers";

constexpr std::string_view same_as = "same as: ";  // in the comments of a light that is another one's name

bool is_file(std::string_view id) { return id.ends_with(".csv"); }

spectral::Illuminant light_from(const std::string& id, const std::string& text, const std::string& where) {
    const auto table = read_table(text, where, {"wavelength_nm", "power"});
    spectral::Illuminant light{id, {}};
    for (const auto& row : table.rows) {
        light.power.wavelength_nm.push_back(row[0]);
        light.power.value.push_back(row[1]);
    }
    return light;
}

// A lamp's file must say enough of the visible light; what lies beyond its ends is held by the weights.
void check_lamp(const spectral::Illuminant& light, const std::string& file) {
    const auto& nm = light.power.wavelength_nm;
    double gap = 0, sum = 0;
    for (std::size_t i = 1; i < nm.size(); ++i) gap = std::max(gap, nm[i] - nm[i - 1]);
    for (const double v : light.power.value) {
        if (v < 0) throw InputError("lamp-negative", {file}, "a lamp has no power below 0");
        sum += v;
    }
    if (nm.empty() || nm.front() > 400 || nm.back() < 700 || gap > 20)
        throw InputError("lamp-range", {file}, "a lamp's file covers at least 400 to 700 nm, every 20 nm or finer");
    if (!(sum > 0)) throw InputError("lamp-dark", {file}, "all powers are 0: this lamp gives no light");
}

}  // namespace

struct Library::Held {
    std::mutex one_at_a_time;
    material::Materials materials;
};

Library::Library() : held_(std::make_shared<Held>()) {
    for (const auto& file : embedded_library()) add(std::string(file.path));
}

Library::Library(const std::filesystem::path& folder) : folder_(folder), held_(std::make_shared<Held>()) {
    std::error_code error;
    if (!std::filesystem::is_directory(folder, error))
        throw InputError("library-folder", {folder.string()},
                         "this is not a folder; a material library is a folder with woods/, films/, ...");
    std::vector<std::string> paths;
    for (const auto& item : std::filesystem::recursive_directory_iterator(folder))
        if (item.is_regular_file()) paths.push_back(std::filesystem::relative(item.path(), folder).generic_string());
    std::sort(paths.begin(), paths.end());
    for (const auto& p : paths) add(p);
    if (ids().empty())
        throw InputError("library-empty", {folder.string()},
                         "there is no material file in this folder (woods/*.toml, films/*.toml, ...)");
}

void Library::add(const std::string& path) {
    const auto slash = path.find('/');
    const auto dot = path.rfind('.');
    if (slash == std::string::npos || dot == std::string::npos || dot < slash) return;
    const auto folder = path.substr(0, slash), ending = path.substr(dot);
    const auto id = path.substr(slash + 1, dot - slash - 1);
    const auto kind = material::kind_of_folder(folder);
    if (kind && ending == ".toml") entries_.push_back({id, path, kind, false});
    if ((folder == light_folder || folder == observer_folder) && ending == ".csv")
        entries_.push_back({id, path, std::nullopt, folder == light_folder});
}

std::string_view Library::Entry::word() const {
    return kind ? material::word(*kind) : light ? "illuminant" : "observer";
}

namespace {

template <class F>
std::vector<std::string> ids_where(const std::vector<Library::Entry>& entries, const F& wanted) {
    std::vector<std::string> out;
    for (const auto& e : entries)
        if (wanted(e)) out.push_back(e.id);
    std::sort(out.begin(), out.end());
    return out;
}

}  // namespace

std::vector<std::string> Library::ids(std::optional<material::Kind> kind) const {
    return ids_where(entries_, [&](const Entry& e) { return kind ? e.kind == kind : e.kind.has_value(); });
}

std::vector<std::string> Library::lights() const {
    return ids_where(entries_, [](const Entry& e) { return e.light; });
}

std::vector<std::string> Library::observers() const {
    return ids_where(entries_, [](const Entry& e) { return !e.kind && !e.light; });
}

const Library::Entry* Library::find(std::string_view id) const {
    const auto it = std::find_if(entries_.begin(), entries_.end(), [&](const auto& e) { return e.id == id; });
    return it == entries_.end() ? nullptr : &*it;
}

std::string Library::text(const Entry& entry) const {
    if (folder_) return read_text(*folder_ / entry.path);
    for (const auto& file : embedded_library())
        if (file.path == entry.path) return std::string(file.text);
    return "";
}

std::string Library::where(const Entry& entry) const {
    return folder_ ? (*folder_ / entry.path).string() : "spectra/" + entry.path;
}

material::Material Library::material(const std::string& id) const {
    {
        const std::lock_guard lock(held_->one_at_a_time);
        const auto found = held_->materials.find(id);
        if (found != held_->materials.end()) return found->second;
    }
    auto m = read(id);
    const std::lock_guard lock(held_->one_at_a_time);
    return held_->materials.emplace(id, std::move(m)).first->second;
}

material::Materials Library::materials() const {
    material::Materials out;
    for (const auto& id : ids()) out.emplace(id, material(id));
    return out;
}

material::Material Library::read(const std::string& id) const {
    const auto* entry = find(id);
    if (!entry || !entry->kind)
        throw InputError("material-unknown", {"library"},
                         "there is no material '" + id + "'." + material_suggestion(id, ids()));
    Problems problems;
    auto m = read_material_file(text(*entry), where(*entry), id, problems);
    if (m.kind != entry->kind)
        problems.add("material-kind", {where(*entry)},
                     "kind = \"" + std::string(word(m.kind)) + "\" does not belong in the folder of a " +
                         std::string(entry->word()));
    problems.raise();
    return m;
}

bool Library::has_light(std::string_view id) const {
    const auto* entry = find(id);
    if (entry) return entry->light;
    const auto by_temperature = spectral::temperature_light(id);
    return is_file(id) || (by_temperature && by_temperature->in_range());
}

spectral::Illuminant Library::illuminant(const std::string& id) const {
    const auto* entry = find(id);
    if (entry && entry->light) {
        for (const auto& line : comments(id))
            if (line.starts_with(same_as)) return {id, illuminant(line.substr(same_as.size())).power};
        return light_from(id, text(*entry), where(*entry));
    }
    if (is_file(id)) {
        auto light = light_from(id, read_text(id), id);
        check_lamp(light, id);
        return light;
    }
    const auto by_temperature = spectral::temperature_light(id);
    if (by_temperature && by_temperature->in_range()) return spectral::make_light(*by_temperature);
    if (by_temperature)
        throw InputError("light-temperature", {"library"},
                         "'" + id + "': " + (by_temperature->family == 'D' ? "daylight" : "a black body") +
                             " can be had from " + base::shortest(by_temperature->low_k()) + " to " +
                             base::shortest(by_temperature->high_k()) + " K");
    throw InputError(
        "light-unknown", {"library"},
        "there is no light '" + id + "'." +
            (light_meant_by(id).empty() ? suggestion(id, lights()) : " Did you mean " + light_meant_by(id) + "?") +
            " Or give a temperature in kelvin (D5500 daylight, P2700 a filament) or a lamp's file (lamp.csv)");
}

spectral::Observer Library::observer(const std::string& id) const {
    const auto* entry = find(id);
    if (!entry || entry->kind || entry->light)
        throw InputError("observer-unknown", {"library"},
                         "there is no observer '" + id + "'." + suggestion(id, observers()));
    const auto table = read_table(text(*entry), where(*entry), {"wavelength_nm", "x", "y", "z"});
    spectral::Observer o{id, {}, {}, {}};
    for (const auto& row : table.rows)
        for (auto* s : {&o.x, &o.y, &o.z}) {
            s->wavelength_nm.push_back(row[0]);
            s->value.push_back(row[s == &o.x ? 1 : s == &o.y ? 2 : 3]);
        }
    return o;
}

std::vector<std::string> Library::comments(const std::string& id) const {
    const auto* entry = find(id);
    if (!entry || entry->kind) return {};
    std::vector<std::string> out;
    const std::string content = text(*entry);
    std::size_t start = 0;
    while (start < content.size() && content[start] == '#') {
        const auto end = content.find('\n', start);
        out.push_back(content.substr(start + 2, end - start - 2));
        start = end + 1;
    }
    return out;
}

}  // namespace foretone::scene
