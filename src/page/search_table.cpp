// The job's own [search], as it is written: what the page's choices for a match begin with.
#include <toml++/toml.h>

#include "session.hpp"

namespace foretone::page {
namespace {

Json json_of(const toml::node& node) {
    if (const auto* t = node.as_table()) {
        auto out = Json::object();
        for (const auto& [key, value] : *t) out[std::string(key.str())] = json_of(value);
        return out;
    }
    if (const auto* list = node.as_array()) {
        auto out = Json::array();
        for (const auto& value : *list) out.push_back(json_of(value));
        return out;
    }
    if (const auto* yes = node.as_boolean()) return yes->get();
    if (const auto* text = node.as_string()) return text->get();
    if (const auto whole = node.as_integer()) return whole->get();
    if (const auto number = node.value<double>()) return *number;
    return nullptr;
}

}  // namespace

Json search_json(const std::string& text) {
    const auto root = toml::parse(text);  // it was read before: what is wrong in it was said then
    const auto* table = root["search"].as_table();
    return table ? json_of(*table) : Json(nullptr);
}

Json written_json(const scene::Written& w) {
    if (const auto* text = std::get_if<std::string>(&w.value)) return *text;
    if (const auto* number = std::get_if<double>(&w.value)) return *number;
    if (const auto* yes = std::get_if<bool>(&w.value)) return *yes;
    if (const auto* list = std::get_if<std::vector<scene::Written>>(&w.value)) {
        auto out = Json::array();
        for (const auto& item : *list) out.push_back(written_json(item));
        return out;
    }
    auto out = Json::object();
    for (const auto& [key, value] : std::get<scene::WrittenTable>(w.value)) out[key] = written_json(value);
    return out;
}

}  // namespace foretone::page
