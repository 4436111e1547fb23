#include "foretone/base/text.hpp"

#include <fmt/core.h>

#include "foretone/base/utf8.hpp"

namespace foretone::base {
namespace {

bool control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }

template <char (*Change)(char)>
std::string changed(std::string_view text) {
    std::string out(text);
    for (char& c : out) c = Change(c);
    return out;
}

}  // namespace

std::string joined(const std::vector<std::string>& words, std::string_view between, std::string_view before_last) {
    std::string text;
    for (std::size_t i = 0; i < words.size(); ++i) {
        if (i > 0) text += i + 1 == words.size() ? before_last : between;
        text += words[i];
    }
    return text;
}

std::string joined(const std::vector<std::string>& words, std::string_view between) {
    return joined(words, between, between);
}

std::vector<std::string> split(std::string_view text, char at) {
    std::vector<std::string> parts;
    for (std::size_t cut = text.find(at); cut != std::string_view::npos; cut = text.find(at)) {
        parts.emplace_back(text.substr(0, cut));
        text.remove_prefix(cut + 1);
    }
    parts.emplace_back(text);
    return parts;
}

std::string_view trimmed(std::string_view text, std::string_view blanks) {
    const auto first = text.find_first_not_of(blanks);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(blanks) - first + 1);
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }
char upper(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }
std::string lower(std::string_view text) { return changed<lower>(text); }
std::string upper(std::string_view text) { return changed<upper>(text); }

std::string replaced(std::string_view text, std::string_view from, std::string_view to) {
    std::string out;
    for (std::size_t at = text.find(from); at != std::string_view::npos; at = text.find(from)) {
        (out += text.substr(0, at)) += to;
        text.remove_prefix(at + from.size());
    }
    return out += text;
}

std::string xml_escaped(std::string_view text) {
    std::string out;
    for (const char c : text) {
        switch (c) {
            case '&':
                out += "&amp;";
                break;
            case '<':
                out += "&lt;";
                break;
            case '>':
                out += "&gt;";
                break;
            case '"':
                out += "&quot;";
                break;
            case '\'':
                out += "&#39;";
                break;
            default:
                out += control(c) ? ' ' : c;
        }
    }
    return out;
}

std::string one_line(std::string_view text) {
    std::string out;
    for (std::size_t at = 0; at < text.size();) {
        const std::size_t from = at;
        const bool blank = is_control(next_code_point(text, at));
        out += blank ? std::string_view(" ") : text.substr(from, at - from);
    }
    return out;
}

std::string toml_quoted(std::string_view text) {
    std::string out = "\"";
    for (const char c : text) {
        if (c == '"' || c == '\\')
            (out += '\\') += c;
        else if (c == '\n')
            out += "\\n";
        else if (c == '\t')
            out += "\\t";
        else if (control(c))
            out += fmt::format("\\u{:04x}", static_cast<unsigned>(static_cast<unsigned char>(c)));
        else
            out += c;
    }
    return out + '"';
}

}  // namespace foretone::base
