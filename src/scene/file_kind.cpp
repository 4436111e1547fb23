#include "foretone/scene/file_kind.hpp"

#include "foretone/base/number.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {
namespace {

// A value in one spelling. A text is told with its length, so that no text can pass for the end of another. Dates are
// left out: no key of a scene takes one.
void spell(std::string& out, const toml::node& node) {
    if (const auto* table = node.as_table()) {
        out += '{';
        for (const auto& [key, value] : *table) {  // in rising order of keys
            out += std::to_string(key.str().size()) + ":" + std::string(key.str()) + "=";
            spell(out, value);
        }
        out += '}';
    } else if (const auto* list = node.as_array()) {
        out += '[';
        for (const auto& value : *list) spell(out, value);
        out += ']';
    } else if (const auto* text = node.as_string()) {
        out += std::to_string(text->get().size()) + ":" + text->get();
    } else if (const auto* yes = node.as_boolean()) {
        out += yes->get() ? "true" : "false";
    } else if (const auto number = node.value<double>()) {
        out += base::shortest(*number);
    }
    out += ';';
}

}  // namespace

bool is_scene(const std::string& text, const std::string& file) {
    const auto table = parse_toml(text, file);
    return table.contains("wood") || table.contains("finish");
}

bool is_boards(const std::string& text, const std::string& file) { return parse_toml(text, file).contains("board"); }

std::string all_but_finishes(const std::string& text, const std::string& file) {
    auto table = parse_toml(text, file);
    table.erase("finish");
    std::string out;
    spell(out, table);
    return out;
}

}  // namespace foretone::scene
