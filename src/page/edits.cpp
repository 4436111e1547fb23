// The page's changes as changes of the scene's text.
#include <algorithm>
#include <stdexcept>

#include <toml++/toml.h>

#include "foretone/scene/edit.hpp"
#include "session.hpp"

namespace foretone::page {
namespace {
using scene::Written;
using scene::WrittenTable;

Written written(const Json& j) {
    if (j.is_string()) return {j.get<std::string>()};
    if (j.is_boolean()) return {j.get<bool>()};
    if (j.is_number()) return {j.get<double>()};
    if (j.is_array()) {
        std::vector<Written> list;
        for (const auto& item : j) list.push_back(written(item));
        return {list};
    }
    WrittenTable table;
    for (const auto& [key, value] : j.items()) table.emplace_back(key, written(value));
    return {table};
}

WrittenTable table(const Json& j) {
    WrittenTable out;
    for (const auto& [key, value] : j.items()) out.emplace_back(key, written(value));
    return out;
}

/// The files of materials that a scene names, and `more` of them.
Written shelf(const scene::SceneText& text, const Json& more) {
    std::vector<Written> list;
    const auto root = toml::parse(text.text());  // it was read before: what is wrong in it was said then
    if (const auto* own = root["materials"].as_array())
        for (const auto& item : *own)
            if (const auto name = item.value<std::string>()) list.push_back({*name});
    for (const auto& name : more) {
        const auto same = [&](const Written& w) { return std::get<std::string>(w.value) == name.get<std::string>(); };
        if (std::none_of(list.begin(), list.end(), same)) list.push_back(written(name));
    }
    return {list};
}

/// A text under another name, and every text in a list or table under it.
Json renamed(const Json& j, const Json& names) {
    if (j.is_string()) return names.contains(j.get<std::string>()) ? names[j.get<std::string>()] : j;
    if (!j.is_structured()) return j;
    Json out = j;
    for (auto& item : out) item = renamed(item, names);
    return out;
}

/// Other materials in the place of those that the job uses: its wood, every part of a step, and what a match may use.
void rename_materials(scene::SceneText& text, const Json& names) {
    const auto root = toml::parse(text.text());
    const auto other = [&](const toml::node_view<const toml::node>& use) {
        const auto id = use.value<std::string>();
        return id && names.contains(*id) ? names[*id].get<std::string>() : std::string();
    };
    if (const auto id = other(root["wood"]["use"]); !id.empty()) text.set("wood", "use", {id});
    const auto* finishes = root["finish"].as_array();
    for (std::size_t f = 0; finishes && f < finishes->size(); ++f) {
        const auto* steps = root["finish"][f]["step"].as_array();
        for (std::size_t s = 0; steps && s < steps->size(); ++s) {
            const auto step = root["finish"][f]["step"][s];
            if (const auto id = other(step["use"]); !id.empty()) text.set(f, s, "use", {id});
            const auto* mix = step["mix"].as_array();
            for (std::size_t p = 0; mix && p < mix->size(); ++p)
                if (const auto id = other(step["mix"][p]["use"]); !id.empty()) text.set_part(f, s, p, "use", {id});
        }
    }
    if (const auto search = search_json(text.text()); !search.is_null())
        if (const auto now = renamed(search, names); now != search) text.replace("search", table(now));
}

void apply(scene::SceneText& text, const Json& e) {
    const auto what = e.at("do").get<std::string>();
    const auto finish = e.value("finish", std::size_t{0});
    const auto step = e.value("step", std::size_t{0});
    if (what == "title")
        text.set("title", written(e.at("value")));
    else if (what == "notes") {
        if (e.at("value").get<std::string>().empty())
            text.remove("notes");
        else
            text.set("notes", written(e.at("value")));
    } else if (what == "name")
        text.set(finish, "name", written(e.at("value")));
    else if (what == "set") {
        if (e.at("value").is_null())
            text.remove(finish, step, e.at("key"));
        else
            text.set(finish, step, e.at("key"), written(e.at("value")));
    } else if (what == "set-part")
        text.set_part(finish, step, e.at("part"), e.at("key"), written(e.at("value")));
    else if (what == "table")
        text.replace(e.at("name"), table(e.at("keys")));
    else if (what == "table-key")
        text.set(e.at("name").get<std::string>(), e.at("key").get<std::string>(), written(e.at("value")));
    else if (what == "shelf")
        text.set("materials", shelf(text, e.at("files")));
    else if (what == "rename-materials")
        rename_materials(text, e.at("names"));
    else if (what == "add-step")
        text.add_step(finish, e.at("place"), table(e.at("keys")));
    else if (what == "remove-step")
        text.remove_step(finish, step);
    else if (what == "move-step")
        text.move_step(finish, step, e.at("place"));
    else if (what == "add-finish") {
        std::vector<WrittenTable> steps;
        for (const auto& s : e.at("steps")) steps.push_back(table(s));
        text.add_finish(e.at("value"), steps);
    } else if (what == "copy-finish")
        text.copy_finish(finish, e.at("value"));
    else if (what == "remove-finish")
        text.remove_finish(finish);
    else
        throw std::invalid_argument("page::edited: unknown change '" + what + "'");
}

}  // namespace

std::string edited(const std::string& text, const std::string& file, const Json& edits) {
    scene::SceneText out(text, file);
    for (const auto& e : edits) apply(out, e);
    return out.text();
}

}  // namespace foretone::page
