// A word is a condition if it is one in full: a light's name, an observer, a scale, or how the surface's gloss was
// counted. A bracket of which one word is nothing of these is part of the name ("L* (mean)").

#include "heading.hpp"

#include <algorithm>
#include <vector>

#include "conditions.hpp"
#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"

namespace foretone::measure {
namespace {

bool among(std::string_view word, std::initializer_list<std::string_view> words) {
    return std::find(words.begin(), words.end(), word) != words.end();
}

bool names_light(std::string_view low) {
    const auto digits = [&](std::size_t from) {
        return low.size() > from && std::all_of(low.begin() + static_cast<std::ptrdiff_t>(from), low.end(),
                                                [](char c) { return c >= '0' && c <= '9'; });
    };
    if (among(low, {"a", "c", "e"})) return true;
    if (low.size() == 3 && low[0] == 'd' && digits(1)) return true;
    if (low.size() <= 3 && low.size() >= 2 && low[0] == 'f' && digits(1)) return true;
    return low.starts_with("led-") && low.size() > 4;
}

// Takes one word into `out`; false if it is no condition.
bool take_word(std::string_view word, Heading& out) {
    std::string low = base::lower(word);
    low = base::replaced(low, "\xC2\xB0", "deg");
    low = base::replaced(low, "\xC2\xBA", "deg");
    if (among(low, {"cie", "deg", "degree", "degrees", "observer", "std", "illuminant", "ill"})) return true;
    if (among(low, {"%", "pct", "percent", "0-100"})) {
        out.percent = true;
        return true;
    }
    if (among(low, {"fraction", "decimal", "0-1", "0...1", "0..1"})) {
        out.percent = false;
        return true;
    }
    if (names_light(low)) {
        if (!out.light.empty()) return false;
        out.light = base::upper(low);
        return true;
    }
    if (among(low, {"2", "2deg", "10", "10deg", "1931", "1964", "2degree", "10degree"})) {
        if (!out.observer.empty()) return false;
        out.observer = observer_from(low).value_or("");
        return !out.observer.empty();
    }
    if (among(low, {"sci", "spin", "sce", "spex"})) {
        out.geometry = geometry_from(low == "spin" || low == "sci" ? "d/8-included" : "d/8-excluded").geometry;
        return true;
    }
    return false;
}

std::vector<std::string> words_of(std::string_view text) {
    std::vector<std::string> out;
    std::string word;
    for (const char c : text) {
        if (c == ' ' || c == ',' || c == ';' || c == '/' || c == '|' || c == '_' || c == ':') {
            if (!word.empty()) out.push_back(std::move(word));
            word.clear();
        } else {
            word += c;
        }
    }
    if (!word.empty()) out.push_back(std::move(word));
    return out;
}

bool take_all(std::string_view text, Heading& out) {
    Heading tried = out;
    const auto words = words_of(text);
    if (words.empty()) return false;
    for (const auto& w : words)
        if (!take_word(w, tried)) return false;
    out = tried;
    return true;
}

// The content of the last bracket that closes `text`, with where it opens.
std::optional<std::pair<std::size_t, std::string>> last_bracket(std::string_view text) {
    constexpr std::pair<char, char> pairs[] = {{'(', ')'}, {'[', ']'}, {'{', '}'}};
    for (const auto& [open, close] : pairs) {
        if (text.empty() || text.back() != close) continue;
        const auto at = text.rfind(open);
        if (at == std::string_view::npos) continue;
        return std::pair(at, std::string(text.substr(at + 1, text.size() - at - 2)));
    }
    return std::nullopt;
}

// "400 nm" within a bracket: the wavelength of "R(400 nm)".
bool is_bracketed_wavelength(std::string_view text) {
    std::string low = base::lower(base::trimmed(text));
    if (low.ends_with("nm")) low = base::trimmed(std::string_view(low).substr(0, low.size() - 2));
    const auto v = base::number_in(low);
    return v && *v >= 200 && *v <= 2500;
}

}  // namespace

std::optional<Heading> undress(std::string_view heading) {
    Heading out;
    std::string text(base::trimmed(heading));
    bool any = false;
    for (int round = 0; round < 6; ++round) {
        if (const auto bracket = last_bracket(text)) {
            const std::string before(base::trimmed(std::string_view(text).substr(0, bracket->first), " \t_"));
            if (before.empty()) break;
            if (is_bracketed_wavelength(bracket->second))
                text = before + " " + std::string(base::trimmed(bracket->second));
            else if (take_all(bracket->second, out))
                text = before;
            else
                break;
            any = true;
            continue;
        }
        const auto gap = text.find_last_of(" _,/");
        if (gap == std::string::npos || gap == 0) break;
        if (!take_all(std::string_view(text).substr(gap + 1), out)) break;
        text = std::string(base::trimmed(std::string_view(text).substr(0, gap), " \t_,/"));
        any = true;
    }
    if (!any || text.empty()) return std::nullopt;
    out.base = text;
    return out;
}

}  // namespace foretone::measure
