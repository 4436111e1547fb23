// The parser tells what it expected; a writer wants to know what to change. The line itself shows that in nearly every
// case, so it is looked at first; what the parser found only decides where the line leaves it open.

#include "toml_words.hpp"

#include <algorithm>

#include "foretone/base/text.hpp"

namespace foretone::scene {
namespace {

std::string_view line_at(std::string_view text, std::size_t line) {
    for (std::size_t n = 1; n < line; ++n) {
        const auto end = text.find('\n');
        if (end == std::string_view::npos) return {};
        text.remove_prefix(end + 1);
    }
    auto out = text.substr(0, text.find('\n'));
    if (out.ends_with('\r')) out.remove_suffix(1);
    return out;
}

bool digit(char c) { return c >= '0' && c <= '9'; }
bool letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }

bool holds(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

// Where a line's comment begins, which no quote holds, and whether a quote stays open.
struct Quotes {
    std::size_t comment;
    bool open;
};

Quotes quotes_in(std::string_view line) {
    char quote = 0;
    for (std::size_t i = 0; i < line.size(); ++i) {
        const char c = line[i];
        if (quote == '"' && c == '\\')
            ++i;
        else if (quote != 0)
            quote = c == quote ? '\0' : quote;
        else if (c == '"' || c == '\'')
            quote = c;
        else if (c == '#')
            return {i, false};
    }
    return {line.size(), quote != 0};
}

std::string_view without_comment(std::string_view line) { return line.substr(0, quotes_in(line).comment); }

// The key's last bare word and the value, of "key = value"; of the part of a line after the last ',' or '{' within one.
struct Pair {
    std::string_view key, value;
};
Pair pair_of(std::string_view line, std::size_t column) {
    const auto upto = line.substr(0, std::min(line.size(), column));
    const auto at = upto.rfind('=');
    const auto mark = at == std::string_view::npos ? line.find('=') : at;
    if (mark == std::string_view::npos) return {base::trimmed(line), {}};
    auto key = base::trimmed(line.substr(0, mark));
    if (const auto from = key.find_last_of(" ,{"); from != std::string_view::npos) key.remove_prefix(from + 1);
    return {key, base::trimmed(line.substr(mark + 1))};
}

std::string quoted(std::string_view text) { return "'" + std::string(text.substr(0, 40)) + "'"; }

std::string of_value(const Pair& pair) {
    const auto v = pair.value;
    const std::string key(pair.key);
    if (v.empty()) return quoted(pair.key) + " has no value: write " + key + " = ...";
    if (digit(v[0]) || ((v[0] == '-' || v[0] == '+') && v.size() > 1 && digit(v[1]))) {
        std::size_t end = 1;
        while (end < v.size() && (digit(v[end]) || v[end] == '.')) ++end;
        const std::string number(v.substr(0, end));
        if (end + 1 < v.size() && v[end] == ',' && digit(v[end + 1])) {
            std::size_t last = end + 1;
            while (last < v.size() && digit(v[last])) ++last;
            return "a comma stands in the number: write " + number + "." +
                   std::string(v.substr(end + 1, last - end - 1)) + ", not " + std::string(v.substr(0, last));
        }
        if (end < v.size())
            return "'" + std::string(v.substr(0, std::min<std::size_t>(v.size(), 20))) +
                   "' is no plain number: write " + key + " = " + number +
                   "; the unit is in the key's name, and a text "
                   "stands in quotes";
    }
    if (letter(v[0])) {
        const auto word = v.substr(0, v.find_first_of(" ,]}#"));
        return "a text stands in quotes: write " + key + " = \"" + std::string(word) + "\"";
    }
    return "";
}

}  // namespace

std::string toml_words(std::string_view text, std::size_t line, std::size_t column, std::string_view found) {
    if (holds(found, "utf-8"))
        return "a letter here is not UTF-8: save the file as UTF-8 (the editor's \"Save as\", encoding)";
    const auto whole = line_at(text, line);
    for (const std::string_view curly :
         {"\xE2\x80\x9C", "\xE2\x80\x9D", "\xE2\x80\x9E", "\xE2\x80\x98", "\xE2\x80\x99"})
        if (holds(whole, curly)) return "curly quotes stand here: write straight ones, \"...\"";
    if (holds(found, "redefine")) {
        const auto key = pair_of(without_comment(whole), column).key;
        return quoted(key) + " stands here for the second time in one table: keep one of the two";
    }
    if (quotes_in(whole).open) return "a quote is missing: a text begins and ends with \" on one line";
    const auto body = base::trimmed(without_comment(whole));
    if (body.starts_with('[') && body.find('=') == std::string_view::npos) {
        const bool two = body.starts_with("[[");
        if (!body.ends_with(two ? "]]" : "]"))
            return std::string("a heading is not closed: ") + (two ? "[[finish]] ends with ]]" : "[wood] ends with ]");
    }
    if (holds(found, "array") && !holds(found, "inline"))
        if (const auto words = of_value(pair_of(body, column));
            body.find('=') == std::string_view::npos || words.empty())
            return "a list is not closed before here: between its values stand commas, and ] ends it";
    if (holds(found, "inline table"))
        return "a { ... } is not closed, or a comma is missing in it: { use = \"water\", parts = 4 }";
    if (!body.empty() && body.find('=') == std::string_view::npos && !body.starts_with('['))
        return "'=' is missing: a line is key = value, a heading such as [wood], or a comment after #";
    if (const auto words = of_value(pair_of(body, column)); !words.empty()) return words;
    return "the file cannot be read from here on: look for a quote, bracket or comma that is missing in this line or "
           "the one before";
}

}  // namespace foretone::scene
