#include "foretone/scene/library.hpp"

#include <algorithm>
#include <array>

#include "foretone/scene/material_file.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/spectrum_file.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::scene {
namespace {

constexpr std::array<std::array<std::string_view, 2>, 10> folders = {{{"woods", "wood"},
                                                                      {"dyes", "dye"},
                                                                      {"stocks", "stock"},
                                                                      {"pigments", "pigment"},
                                                                      {"oils", "oil"},
                                                                      {"films", "film"},
                                                                      {"waxes", "wax"},
                                                                      {"liquids", "liquid"},
                                                                      {"illuminants", "illuminant"},
                                                                      {"observers", "observer"}}};

bool is_table(std::string_view kind) { return kind == "illuminant" || kind == "observer"; }

}  // namespace

Library::Library() {
    for (const auto& file : embedded_library()) add(std::string(file.path));
}

Library::Library(const std::filesystem::path& folder) : folder_(folder) {
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
    for (const auto& [name, kind] : folders)
        if (path.substr(0, slash) == name && path.substr(dot) == (is_table(kind) ? ".csv" : ".toml"))
            entries_.push_back({path.substr(slash + 1, dot - slash - 1), std::string(kind), path});
}

std::vector<std::string> Library::ids(std::string_view kind) const {
    std::vector<std::string> out;
    for (const auto& e : entries_)
        if (kind.empty() ? !is_table(e.kind) : e.kind == kind) out.push_back(e.id);
    std::sort(out.begin(), out.end());
    return out;
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
    const auto* entry = find(id);
    if (!entry || is_table(entry->kind))
        throw InputError("material-unknown", {"library"}, "there is no material '" + id + "'." + suggestion(id, ids()));
    Problems problems;
    auto m = read_material_file(text(*entry), where(*entry), id, problems);
    if (m.kind != entry->kind)
        problems.add("material-kind", {where(*entry)},
                     "kind = \"" + m.kind + "\" does not belong in the folder of a " + entry->kind);
    problems.raise();
    return m;
}

spectral::Illuminant Library::illuminant(const std::string& id) const {
    const auto* entry = find(id);
    if (!entry || entry->kind != "illuminant")
        throw InputError("light-unknown", {"library"},
                         "there is no light '" + id + "'." + suggestion(id, ids("illuminant")));
    const auto table = read_table(text(*entry), where(*entry), {"wavelength_nm", "power"});
    spectral::Illuminant light{id, {}};
    for (const auto& row : table.rows) {
        light.power.wavelength_nm.push_back(row[0]);
        light.power.value.push_back(row[1]);
    }
    return light;
}

spectral::Observer Library::observer(const std::string& id) const {
    const auto* entry = find(id);
    if (!entry || entry->kind != "observer")
        throw InputError("observer-unknown", {"library"},
                         "there is no observer '" + id + "'." + suggestion(id, ids("observer")));
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
    if (!entry || !is_table(entry->kind)) return {};
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
