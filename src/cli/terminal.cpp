#include "terminal.hpp"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <string_view>

namespace foretone::cli {
namespace {

std::string_view environment(const char* name) {
    const char* value = std::getenv(name);
    return value ? value : "";
}

// Nearest of the 6×6×6 color cube that 256-color terminals have at 16…231 (levels 0, 95, 135, 175, 215, 255).
int palette_index(const std::array<std::uint8_t, 3>& code) {
    const auto level = [](int v) { return v < 48 ? 0 : v < 115 ? 1 : std::min(5, (v - 35) / 40); };
    return 16 + 36 * level(code[0]) + 6 * level(code[1]) + level(code[2]);
}

}  // namespace

Chips chips() {
    if (!isatty(STDOUT_FILENO) || !environment("NO_COLOR").empty()) return Chips::none;
    const auto full = environment("COLORTERM");
    if (full == "truecolor" || full == "24bit") return Chips::full;
    return environment("TERM").find("256color") != std::string_view::npos ? Chips::palette : Chips::none;
}

std::string chip(const std::array<std::uint8_t, 3>& code, Chips how) {
    if (how == Chips::none) return "";
    std::string color;
    if (how == Chips::full)
        color = "48;2;" + std::to_string(code[0]) + ";" + std::to_string(code[1]) + ";" + std::to_string(code[2]);
    else
        color = "48;5;" + std::to_string(palette_index(code));
    return "\x1b[" + color + "m    \x1b[0m";
}

std::size_t columns_of(const std::string& text) {
    std::size_t n = 0;
    bool escape = false;
    for (const char c : text) {
        if (c == '\x1b')
            escape = true;
        else if (escape)
            escape = c != 'm';
        else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80)
            ++n;
    }
    return n;
}

std::string left(const std::string& text, std::size_t width) {
    const std::size_t n = columns_of(text);
    if (n <= width) return text + std::string(width - n, ' ');
    std::string out;
    std::size_t taken = 0;
    for (const char c : text) {
        if ((static_cast<unsigned char>(c) & 0xC0) != 0x80 && ++taken >= width) break;
        out += c;
    }
    return out + "…";
}

std::string right(const std::string& text, std::size_t width) {
    const std::size_t n = columns_of(text);
    return n < width ? std::string(width - n, ' ') + text : text;
}

std::string lab_text(const color::Lab& c) {
    return right(fixed(c.l, 1), 4) + right(fixed(c.a, 1), 7) + right(fixed(c.b, 1), 7);
}

std::string film_head(schedule::UnitSystem units) { return units == schedule::UnitSystem::us ? "film mil" : "film µm"; }

std::string film_cell(double um, schedule::UnitSystem units) {
    if (!(um > 0)) return "";
    return units == schedule::UnitSystem::us ? fixed(um / schedule::um_per_mil, 1) : fixed(um, 0);
}

double largest(const std::vector<double>& values) {
    return values.empty() ? 0 : *std::max_element(values.begin(), values.end());
}

std::string worst_words(const std::vector<double>& values, const std::vector<std::string>& words) {
    return words.empty()
               ? ""
               : words.at(static_cast<std::size_t>(std::max_element(values.begin(), values.end()) - values.begin()));
}

std::string table(const std::vector<std::vector<std::string>>& rows, const std::vector<bool>& numeric) {
    std::vector<std::size_t> widths(numeric.size(), 0);
    for (const auto& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i) widths[i] = std::max(widths[i], columns_of(row[i]));
    std::string out;
    for (std::size_t r = 0; r < rows.size(); ++r) {
        std::string line;
        for (std::size_t i = 0; i < rows[r].size(); ++i) {
            if (widths[i] == 0) continue;
            if (!line.empty()) line += "  ";
            line += numeric[i] ? right(rows[r][i], widths[i]) : left(rows[r][i], widths[i]);
        }
        while (!line.empty() && line.back() == ' ') line.pop_back();
        out += line + "\n";
        if (r > 0) continue;
        std::string rule;
        for (const auto w : widths)
            if (w > 0) rule += (rule.empty() ? "" : "  ") + std::string(w, '-');
        out += rule + "\n";
    }
    return out;
}

}  // namespace foretone::cli
