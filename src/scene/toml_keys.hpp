#pragma once
/// A TOML table with its place in a file: every look-up that fails says where and what would be right.

#include <cmath>
#include <optional>
#include <string>
#include <vector>

#ifndef TOML_ENABLE_FORMATTERS
#define TOML_ENABLE_FORMATTERS 0
#endif
#include <toml++/toml.h>

#include "foretone/scene/problem.hpp"

namespace foretone::scene {

/// The parsed file. Throws InputError `toml-syntax` with line and column, toml-depth, text-control, text-long.
toml::table parse_toml(std::string_view text, const std::string& file);

/// The same with whatever texts stand in it, so that they can be mended. Throws InputError toml-syntax, toml-depth.
toml::table parse_toml_as_it_stands(std::string_view text, const std::string& file);

class Keys {
public:
    Keys(const toml::table& table, std::string file, std::string what, Problems& problems)
        : table_(table), file_(std::move(file)), what_(std::move(what)), problems_(problems) {}

    const toml::table& table() const { return table_; }
    const std::string& file() const { return file_; }
    Problems& problems() const { return problems_; }
    bool has(std::string_view key) const { return table_.contains(key); }

    Place here() const { return place_of(table_); }
    Place place_of(const toml::node& node) const {
        const auto at = node.source().begin;
        return {file_, at.line, at.column};
    }
    Place place_of(std::string_view key) const {
        for (const auto& [k, node] : table_)
            if (k.str() == key) return {file_, k.source().begin.line, k.source().begin.column};
        return here();
    }

    void fault(std::string id, Place place, std::string text) const {
        problems_.add(std::move(id), std::move(place), std::move(text));
    }

    /// Reports every key that is not among `allowed`.
    void only(const std::vector<std::string>& allowed) const;
    /// A text; empty if absent or of another type (then reported).
    std::optional<std::string> text(std::string_view key) const;
    /// A text that is one of `choices`.
    std::optional<std::string> choice(std::string_view key, const std::vector<std::string>& choices) const;
    /// A finite number in [low, high]; reported if not.
    std::optional<double> number(std::string_view key, double low, double high, std::string_view unit = "") const;
    /// true or false.
    std::optional<bool> truth(std::string_view key) const;
    std::optional<int> integer(std::string_view key, int low, int high) const;
    /// A list of texts.
    std::optional<std::vector<std::string>> texts(std::string_view key) const;
    std::optional<std::vector<double>> numbers(std::string_view key) const;
    /// A sub-table.
    const toml::table* sub(std::string_view key) const;

    /// A number node checked against a range; `key` for the message.
    std::optional<double> number_at(const toml::node& node, std::string_view key, double low, double high,
                                    std::string_view unit) const;

private:
    void wrong_type(std::string_view key, const toml::node& node, std::string_view due) const;

    const toml::table& table_;
    std::string file_, what_;
    Problems& problems_;
};

}  // namespace foretone::scene
