#include "own_materials.hpp"

#include "foretone/material/references.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/base/text.hpp"
#include "data_sheet.hpp"
#include "joint_table.hpp"
#include "material_table.hpp"
#include "foretone/scene/trade_words.hpp"

namespace foretone::scene {
namespace {

// Runs something that throws InputError; its problems join the others, placed where they were asked for if they have no
// place of their own.
template <class F>
void guarded(Problems& problems, const Place& asked, F&& f) {
    try {
        f();
    } catch (const InputError& e) {
        for (const auto& p : e.problems) problems.add(p.id, p.place.file == "library" ? asked : p.place, p.text);
    }
}

void read_tables(const toml::table& table, const Keys& root, const std::filesystem::path& folder,
                 const Library& library, material::Materials& materials, const std::function<void(Problem)>& warn,
                 std::map<std::string, Place>& places) {
    for (const auto& [key, node] : table) {
        const std::string id(key.str());
        const auto* own = node.as_table();
        const Place place = root.place_of(node);
        if (!own) {
            root.fault("value-type", place, "[material." + id + "] must be a table");
            continue;
        }
        guarded(root.problems(), place, [&] {
            std::vector<Problem> notes;
            auto m = read_material(Keys(*own, root.file(), "[material." + id + "]", root.problems()), id, &library,
                                   folder, &notes);
            for (auto& note : notes) warn(std::move(note));
            if (!m.note.empty()) warn({"material-filled", root.place_of(*own), m.note});
            materials[id] = std::move(m);
            places[id] = place;
        });
    }
}

}  // namespace

std::map<std::string, Place> read_own_materials(const Keys& root, const std::filesystem::path& folder,
                                                const Library& library, material::Materials& materials,
                                                std::vector<appearance::JointTable>& fits,
                                                const std::function<void(Problem)>& warn, Cans* cans) {
    Cans unasked;
    std::map<std::string, Place> places;
    const auto* listed = root.table().get("materials");
    if (const auto* meant = listed ? listed->as_table() : nullptr) {
        root.fault("value-type", root.place_of("materials"),
                   "materials = [\"own.toml\"] names files; a material of this scene is [material.NAME], without s");
        read_tables(*meant, root, folder, library, materials, warn, places);
    } else if (const auto files = root.texts("materials"))
        for (const auto& name : *files)
            guarded(root.problems(), root.place_of("materials"), [&] {
                const auto path = folder / name;
                auto table = parse_toml(read_text(path), path.string());
                for (auto& note : apply_data_sheets(table, path.string(), root.problems(), cans ? *cans : unasked))
                    warn(std::move(note));
                const Keys keys(table, path.string(), "a file of materials", root.problems());
                keys.only({"format", "title", "material", "joint"});
                if (!keys.has("format"))
                    keys.fault("key-missing", {keys.file(), 1, 1}, "format = 1 is missing");
                else
                    keys.integer("format", 1, 1);
                if (!keys.has("material"))
                    keys.fault("key-missing", {keys.file(), 1, 1}, "there is no [material.NAME] in this file");
                if (const auto* own = keys.sub("material"))
                    read_tables(*own, keys, path.parent_path(), library, materials, warn, places);
                if (const auto* joint = keys.sub("joint"))
                    if (auto fit = read_joint(Keys(*joint, keys.file(), "[joint]", keys.problems()), warn))
                        fits.push_back(std::move(*fit));
            });
    if (const auto* in_scene = root.sub("material"))
        read_tables(*in_scene, root, folder, library, materials, warn, places);
    const auto own = materials;  // what they draw on
    for (const auto& [id, place] : places) take_parts(own.at(id), place, library, materials, root.problems());
    for (auto& fit : fits) {
        const auto edited = appearance::drop_edited(fit, materials);
        if (!edited.empty())
            warn({"joint-edited", root.has("materials") ? root.place_of("materials") : root.here(),
                  base::joined(edited, ", ", " and ") + " no longer read" + (edited.size() == 1 ? "s" : "") + " as \"" +
                      fit.title + "\" fitted it: " + (edited.size() == 1 ? "it stands" : "they stand") + " by " +
                      (edited.size() == 1 ? "its" : "their") + " own sd, the others still hang together"});
    }
    std::erase_if(fits, [](const auto& fit) { return fit.figures.empty(); });
    return places;
}

void take_material(const std::string& id, const Place& place, const Library& library, material::Materials& materials,
                   Problems& problems) {
    if (id.empty() || materials.count(id)) return;
    const auto* entry = library.find(id);
    if (!entry || !entry->kind) {
        auto choices = library.ids();
        for (const auto& [own, m] : materials) choices.push_back(own);
        problems.add("material-unknown", place,
                     "there is no material '" + id.substr(0, 60) + "'." + material_suggestion(id, choices) +
                         " ('foretone materials' lists all)");
        return;
    }
    guarded(problems, place, [&] {
        materials[id] = library.material(id);
        const auto copy = materials[id];
        take_parts(copy, place, library, materials, problems);
    });
}

void take_parts(const material::Material& m, const Place& place, const Library& library, material::Materials& materials,
                Problems& problems) {
    for (const auto& part : material::parts(m)) take_material(part, place, library, materials, problems);
}

}  // namespace foretone::scene
