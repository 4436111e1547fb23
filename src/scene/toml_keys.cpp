#include "toml_keys.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"
#include "toml_guard.hpp"
#include "toml_words.hpp"

namespace foretone::scene {
namespace {

constexpr double endless = 1e100;  // a range that ends here has no upper end

std::string_view type_word(const toml::node& node) {
    switch (node.type()) {
        case toml::node_type::table:
            return "a table";
        case toml::node_type::array:
            return "a list";
        case toml::node_type::string:
            return "a text";
        case toml::node_type::integer:
        case toml::node_type::floating_point:
            return "a number";
        case toml::node_type::boolean:
            return "true or false";
        default:
            return "a date";
    }
}

// Keys that name one quantity in several units share their first word: wet_um, wet_mil, wet_g_per_m2.
std::vector<std::string> same_quantity(std::string_view read, const std::vector<std::string>& allowed) {
    const auto stem = read.substr(0, read.find('_'));
    std::vector<std::string> out;
    for (const auto& a : allowed)
        if (read.find('_') != std::string_view::npos && a.substr(0, a.find('_')) == stem &&
            a.find('_') != std::string::npos)
            out.push_back(a);
    return out;
}

}  // namespace

toml::table parse_toml(std::string_view text, const std::string& file) {
    auto root = parse_toml_as_it_stands(text, file);
    require_plain(root, file);
    return root;
}

toml::table parse_toml_as_it_stands(std::string_view text, const std::string& file) {
    require_shallow(text, file);
    try {
        return toml::parse(text, std::string_view(file));
    } catch (const toml::parse_error& e) {
        const auto at = e.source().begin;
        throw InputError("toml-syntax", {file, at.line, at.column},
                         toml_words(text, at.line, at.column, e.description()));
    }
}

void Keys::only(const std::vector<std::string>& allowed) const {
    for (const auto& [key, node] : table_) {
        const std::string read(key.str());
        if (std::find(allowed.begin(), allowed.end(), read) != allowed.end()) continue;
        const Place place{file_, key.source().begin.line, key.source().begin.column};
        problems_.misspelt(here(), read);
        const auto units = same_quantity(read, allowed);
        if (!units.empty())
            fault("unit-unknown", place,
                  "unknown key '" + read + "' in " + what_ + ": the unit must be one of " + either(units));
        else
            fault("key-unknown", place,
                  "unknown key '" + read.substr(0, 60) + "' in " + what_ + "." + suggestion(read, allowed));
    }
}

void Keys::wrong_type(std::string_view key, const toml::node& node, std::string_view due) const {
    fault("value-type", place_of(node),
          std::string(key) + " is " + std::string(type_word(node)) + "; " + std::string(due) + " is due");
}

std::optional<std::string> Keys::text(std::string_view key) const {
    const auto* node = table_.get(key);
    if (!node) return std::nullopt;
    if (const auto v = node->value_exact<std::string>()) return *v;
    wrong_type(key, *node, "a text in quotes");
    return std::nullopt;
}

std::optional<bool> Keys::truth(std::string_view key) const {
    const auto* node = table_.get(key);
    if (!node) return std::nullopt;
    if (const auto v = node->value_exact<bool>()) return *v;
    fault("value-type", place_of(*node), std::string(key) + " is true or false");
    return std::nullopt;
}

std::optional<std::string> Keys::choice(std::string_view key, const std::vector<std::string>& choices) const {
    const auto v = text(key);
    if (!v || std::find(choices.begin(), choices.end(), *v) != choices.end()) return v;
    fault("value-choice", place_of(*table_.get(key)),
          std::string(key) + " = \"" + v->substr(0, 60) + "\" is not known." + suggestion(*v, choices));
    return std::nullopt;
}

std::optional<double> Keys::number_at(const toml::node& node, std::string_view key, double low, double high,
                                      std::string_view unit) const {
    if (const auto* s = node.as_string()) {
        fault("value-unit", place_of(node),
              std::string(key) + " = \"" + s->get().substr(0, 40) +
                  "\" is a text; a plain number is due, its unit is in the key's name");
        return std::nullopt;
    }
    if (!node.is_number()) {
        wrong_type(key, node, "a number");
        return std::nullopt;
    }
    const double v = *node.value<double>();
    if (!std::isfinite(v)) {
        fault("value-not-finite", place_of(node),
              std::string(key) + " = " + base::shortest(v) + " is not a finite number");
        return std::nullopt;
    }
    if (v < low || v > high) {
        std::string hint;
        if (high <= 1 && v > 1 && v <= 100 && v / 100 >= low)
            hint = "; a fraction is due (" + base::shortest(v) + " % is " + base::shortest(v / 100) + ")";
        const std::string due = high == low ? " must be " + base::shortest(low)
                                : high >= endless
                                    ? " is below " + base::shortest(low)
                                    : " is outside " + base::shortest(low) + " to " + base::shortest(high);
        fault(
            "value-range", place_of(node),
            std::string(key) + " = " + base::shortest(v) + due + (unit.empty() ? "" : " " + std::string(unit)) + hint);
        return std::nullopt;
    }
    return v;
}

std::optional<double> Keys::number(std::string_view key, double low, double high, std::string_view unit) const {
    const auto* node = table_.get(key);
    return node ? number_at(*node, key, low, high, unit) : std::nullopt;
}

std::optional<int> Keys::integer(std::string_view key, int low, int high) const {
    const auto v = number(key, low, high);
    if (!v) return std::nullopt;
    if (*v == std::floor(*v)) return static_cast<int>(*v);
    fault("value-whole", place_of(*table_.get(key)),
          std::string(key) + " = " + base::shortest(*v) + " must be a whole number");
    return std::nullopt;
}

std::optional<std::vector<std::string>> Keys::texts(std::string_view key) const {
    const auto* node = table_.get(key);
    if (!node) return std::nullopt;
    const auto* list = node->as_array();
    if (!list) {
        wrong_type(key, *node, "a list of texts");
        return std::nullopt;
    }
    std::vector<std::string> out;
    for (const auto& item : *list) {
        if (const auto v = item.value_exact<std::string>())
            out.push_back(*v);
        else
            wrong_type(key, item, "a text");
    }
    return out;
}

std::optional<std::vector<double>> Keys::numbers(std::string_view key) const {
    const auto* node = table_.get(key);
    if (!node) return std::nullopt;
    const auto* list = node->as_array();
    if (!list) {
        wrong_type(key, *node, "a list of numbers");
        return std::nullopt;
    }
    std::vector<double> out;
    for (const auto& item : *list) {
        const auto v = number_at(item, key, -1e12, 1e12, "");
        if (!v) return std::nullopt;
        out.push_back(*v);
    }
    return out;
}

const toml::table* Keys::sub(std::string_view key) const {
    const auto* node = table_.get(key);
    if (!node) return nullptr;
    if (const auto* t = node->as_table()) return t;
    const std::string name(key);
    fault("value-type", place_of(*node),
          name + " is " + std::string(type_word(*node)) + "; a table is due: write [" + name +
              "], and its keys in the lines below");
    return nullptr;
}

}  // namespace foretone::scene
