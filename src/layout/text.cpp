#include "foretone/layout/text.hpp"

#include <stdexcept>

#include "foretone/layout/typeface.hpp"
#include "foretone/base/utf8.hpp"

namespace foretone::layout {
namespace {

constexpr std::string_view ellipsis = "…";

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    for (const char c : text) {
        if (!is_space(c)) {
            word += c;
        } else if (!word.empty()) {
            words.push_back(std::move(word));
            word.clear();
        }
    }
    if (!word.empty()) {
        words.push_back(std::move(word));
    }
    return words;
}

/// Bytes of the longest beginning of `text` that is no wider than `width` with `tail` after it; whole code points.
std::size_t fitting_bytes(std::string_view text, std::string_view tail, const TextStyle& style, double width) {
    std::size_t good = 0;
    for (std::size_t at = 0; at < text.size();) {
        base::next_code_point(text, at);
        std::string candidate(text.substr(0, at));
        candidate += tail;
        if (text_width(candidate, style) > width) {
            break;
        }
        good = at;
    }
    return good;
}

std::string shortened(std::string_view text, const TextStyle& style, double width) {
    std::size_t keep = fitting_bytes(text, ellipsis, style, width);
    while (keep > 0 && is_space(text[keep - 1])) {
        --keep;
    }
    std::string out(text.substr(0, keep));
    out += ellipsis;
    return text_width(out, style) <= width ? out : std::string();
}

}  // namespace

double text_width(std::string_view text, const TextStyle& style) {
    const double scale = pixels_per_unit(style);
    long units = 0;
    int before = no_glyph;
    for (std::size_t at = 0; at < text.size();) {
        const int glyph = glyph_of(style.face, base::next_code_point(text, at));
        if (glyph == no_glyph) {
            continue;
        }
        units += advance_of(style.face, glyph) + (before == no_glyph ? 0 : kerning_of(style.face, before, glyph));
        before = glyph;
    }
    return double(units) * scale;
}

double text_ascent(const TextStyle& style) { return ascent_units(style.face) * pixels_per_unit(style); }
double text_descent(const TextStyle& style) { return descent_units(style.face) * pixels_per_unit(style); }

std::string fit_text(std::string_view text, const TextStyle& style, double width_px) {
    return text_width(text, style) <= width_px ? std::string(text) : shortened(text, style, width_px);
}

std::vector<std::string> wrap_text(std::string_view text, const TextStyle& style, double width_px,
                                   std::size_t max_lines) {
    if (max_lines == 0) {
        throw std::invalid_argument("layout::wrap_text: max_lines must be at least 1, got 0");
    }
    std::vector<std::string> lines;
    std::string line;
    for (std::string& word : words_of(text)) {
        const std::string longer = line.empty() ? word : line + ' ' + word;
        if (text_width(longer, style) <= width_px) {
            line = longer;
            continue;
        }
        if (!line.empty()) {
            lines.push_back(std::move(line));
        }
        while (text_width(word, style) > width_px) {  // at least one code point a line, or this would not end
            std::size_t cut = fitting_bytes(word, "", style, width_px);
            if (cut == 0) {
                base::next_code_point(word, cut);
            }
            lines.push_back(word.substr(0, cut));
            word.erase(0, cut);
        }
        line = std::move(word);
    }
    if (!line.empty()) {
        lines.push_back(std::move(line));
    }
    if (lines.size() > max_lines) {
        lines.resize(max_lines);
        lines.back() = shortened(lines.back(), style, width_px);
    }
    return lines;
}

}  // namespace foretone::layout
