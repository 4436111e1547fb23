#include "separated.hpp"

#include <algorithm>
#include <array>

namespace foretone::measure {
namespace {

bool holds_outside_quotes(std::string_view text, char separator) {
    bool quoted = false;
    for (const char c : text) {
        if (c == '"')
            quoted = !quoted;
        else if (c == separator && !quoted)
            return true;
    }
    return false;
}

bool is_key(std::string_view text) {
    if (text.empty() || text.size() > 40) return false;
    return std::all_of(text.begin(), text.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || c == ' ' || c == '-' || c == '/';
    });
}

}  // namespace

char separator_of(const Lines& lines) {
    constexpr std::array<char, 3> separators = {'\t', ';', ','};
    std::array<std::size_t, 3> in_lines{};
    std::size_t content = 0;
    for (const auto& line : lines.list) {
        const auto text = trimmed(line.text);
        if (text.empty() || text.front() == '#' || said_in(line)) continue;
        ++content;
        for (std::size_t i = 0; i < separators.size(); ++i) in_lines[i] += holds_outside_quotes(text, separators[i]);
    }
    for (std::size_t i = 0; i < separators.size(); ++i)
        if (in_lines[i] * 2 > content) return separators[i];
    return ',';
}

std::optional<Said> said_in(const Line& line) {
    const auto mark = line.text.find_first_of(":=");
    if (mark == std::string_view::npos) return std::nullopt;
    const auto key = trimmed(line.text.substr(0, mark));
    if (!is_key(key)) return std::nullopt;
    auto value = trimmed(line.text.substr(mark + 1));
    // A spreadsheet ends such a line with the separators of the columns that it leaves empty, and may quote the value.
    while (!value.empty() &&
           (value.back() == ';' || value.back() == ',' || value.back() == '\t' || value.back() == ' '))
        value.remove_suffix(1);
    if (value.size() >= 2 && value.front() == '"' && value.back() == '"') value = value.substr(1, value.size() - 2);
    if (value.empty()) return std::nullopt;
    return Said{std::string(key), {std::string(value), line.number, characters(line.text.substr(0, mark)) + 2, false}};
}

std::optional<Said> said_in_cells(const std::vector<Cell>& cells) {
    if (cells.empty()) return std::nullopt;
    const auto full = std::count_if(cells.begin(), cells.end(), [](const Cell& c) { return !c.text.empty(); });
    if (full == 1 && !cells[0].text.empty()) return said_in({cells[0].text, cells[0].line});
    if (full == 2 && cells.size() >= 2 && !cells[1].text.empty()) {
        std::string_view key = cells[0].text;
        if (key.ends_with(':') || key.ends_with('=')) key.remove_suffix(1);
        if (is_key(trimmed(key))) return Said{std::string(trimmed(key)), cells[1]};
    }
    return std::nullopt;
}

}  // namespace foretone::measure
