#include "toml_guard.hpp"

#include <algorithm>

#include <fmt/core.h>

#include "foretone/base/utf8.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {

constexpr std::size_t most_told = 10;

// Past the end of the quoted text that begins at `at`: of one line, or of several in three quotes.
std::size_t past_quoted(std::string_view text, std::size_t at) {
    const char quote = text[at];
    const std::string three(3, quote);
    const bool several = text.substr(at, 3) == three;
    for (std::size_t i = at + (several ? 3 : 1); i < text.size();) {
        if (quote == '"' && text[i] == '\\')
            i += 2;
        else if (several && text.substr(i, 3) == three)
            return i + 3;
        else if (!several && (text[i] == quote || text[i] == '\n'))
            return i + 1;
        else
            ++i;
    }
    return text.size();
}

[[noreturn]] void too_deep(std::string_view text, std::size_t at, const std::string& file) {
    const auto before = text.substr(0, at);
    const auto line = 1 + static_cast<std::size_t>(std::count(before.begin(), before.end(), '\n'));
    const auto start = before.rfind('\n') == std::string_view::npos ? 0 : before.rfind('\n') + 1;
    throw InputError("toml-depth", {file, line, 1 + at - start},
                     fmt::format("brackets or the parts of a dotted key are nested more than {} deep here; no file of "
                                 "this program needs more than five",
                                 deepest_toml));
}

class PlainCheck {
public:
    explicit PlainCheck(const std::string& file) : file_(file) {}

    void table(const toml::table& t) {
        for (const auto& [key, value] : t) {
            text(key.str(), "this key", true, key.source().begin);
            node(value, key.str());
        }
    }
    void raise() const { problems_.raise(); }

private:
    void node(const toml::node& n, std::string_view key) {
        if (const auto* t = n.as_table()) return table(*t);
        if (const auto* list = n.as_array())
            for (const auto& item : *list) node(item, key);
        if (const auto* s = n.as_string())
            text(s->get(), std::string(key.substr(0, 40)), key == "name" || key == "title", n.source().begin);
    }

    void text(std::string_view words, const std::string& what, bool name, const toml::source_position& at) {
        if (problems_.list().size() >= most_told) return;
        std::size_t count = 0;
        for (std::size_t i = 0; i < words.size(); ++count) {
            const char32_t p = base::next_code_point(words, i);
            if (!base::is_control(p) || (!name && (p == '\n' || p == '\t' || p == '\r'))) continue;
            return problems_.add(
                "text-control", {file_, at.line, at.column},
                fmt::format("{} holds the control character U+{:04X}; take it out", what, static_cast<unsigned>(p)));
        }
        if (const auto most = name ? longest_toml_name : longest_toml_text; count > most)
            problems_.add("text-long", {file_, at.line, at.column},
                          fmt::format("{} has {} characters; at most {} are read", what, count, most));
    }

    const std::string& file_;
    Problems problems_;
};

}  // namespace

void require_shallow(std::string_view text, const std::string& file) {
    int brackets = 0, dots = 0;
    for (std::size_t at = 0; at < text.size();) {
        const char c = text[at];
        if (c == '"' || c == '\'') {
            at = past_quoted(text, at);
            continue;
        }
        if (c == '#') {
            at = std::min(text.find('\n', at), text.size());
            continue;
        }
        if (c == '.') {
            ++dots;
        } else if (c == '[' || c == '{') {
            ++brackets;
            dots = 0;
        } else if (c == ']' || c == '}') {
            brackets = std::max(0, brackets - 1);
            dots = 0;
        } else if (c == '\n' || c == ',' || c == '=') {
            dots = 0;
        }
        if (brackets > deepest_toml || dots >= deepest_toml) too_deep(text, at, file);
        ++at;
    }
}

void require_plain(const toml::table& root, const std::string& file) {
    PlainCheck check(file);
    check.table(root);
    check.raise();
}

}  // namespace foretone::scene
