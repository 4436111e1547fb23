// Values are replaced where the parser says they stand; tables written under a header of their own are moved as whole
// lines.
#include "foretone/scene/edit.hpp"

#include <algorithm>
#include <optional>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {
namespace {

struct Range {
    std::size_t begin = 0, end = 0;  // bytes
};

bool is_bare(const std::string& key) {
    return !key.empty() && std::all_of(key.begin(), key.end(), [](char c) {
        return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
    });
}

std::string key_text(const std::string& key) { return is_bare(key) ? key : base::toml_quoted(key); }

std::string lines_of(const WrittenTable& keys, const std::string& indent) {
    std::string out;
    for (const auto& [key, value] : keys) out += indent + key_text(key) + " = " + toml_text(value) + "\n";
    return out;
}

// The text with its parse: where tables, keys and values stand.
class Map {
public:
    Map(const std::string& text, const std::string& file)
        : text_(text), file_(file), root_(parse_toml_as_it_stands(text, file)) {
        lines_.push_back(0);
        for (std::size_t i = 0; i < text.size(); ++i)
            if (text[i] == '\n') lines_.push_back(i + 1);
        gather(root_);
        std::sort(headers_.begin(), headers_.end());
    }

    const toml::table& root() const { return root_; }

    // Columns count characters; a byte-order mark at the start is none.
    std::size_t offset(const toml::source_position& at) const {
        if (at.line == 0 || at.line > lines_.size()) return text_.size();
        std::size_t i = lines_[at.line - 1];
        for (std::size_t column = 1; column < at.column && i < text_.size(); ++column) {
            ++i;
            while (i < text_.size() && (static_cast<unsigned char>(text_[i]) & 0xC0) == 0x80) ++i;
        }
        return i;
    }

    Range range(const toml::node& node) const { return {offset(node.source().begin), offset(node.source().end)}; }

    std::size_t line_start(std::size_t at) const {
        while (at > 0 && text_[at - 1] != '\n') --at;
        return at;
    }
    std::size_t line_end(std::size_t at) const {  // past the line's end
        while (at < text_.size() && text_[at] != '\n') ++at;
        return at < text_.size() ? at + 1 : at;
    }

    [[noreturn]] void refuse(const std::string& text) const { throw InputError("edit-place", {file_}, text); }

    const toml::table& table(const toml::node* node, const char* what) const {
        if (!node || !node->is_table()) refuse(std::string("there is no ") + what);
        return *node->as_table();
    }
    const toml::table& finish(std::size_t i) const {
        const auto* list = root_["finish"].as_array();
        return table(list && i < list->size() ? &(*list)[i] : nullptr, "such finish");
    }
    const toml::table& step(std::size_t i, std::size_t j) const {
        const auto* list = finish(i)["step"].as_array();
        return table(list && j < list->size() ? &(*list)[j] : nullptr, "such step");
    }

    // Has a header of its own: [name] or [[name]].
    bool headed(const toml::table& t) const {
        const auto at = offset(t.source().begin);
        return !t.is_inline() && at < text_.size() && text_[at] == '[';
    }

    // Lines of a headed table: its header and its own keys, comments right above the header with it; `deep` takes in
    // what stands below it (a finish and its steps).
    Range lines(const toml::table& t, bool deep) const {
        if (!headed(t))
            refuse(
                "tables are changed here only if they are written under a header of their own, as [[finish]] and "
                "[[finish.step]]");
        std::size_t begin = line_start(offset(t.source().begin));
        std::size_t end = line_end(last_byte(t, deep));
        while (begin > 0) {
            const auto above = line_start(begin - 1);
            const auto word = text_.find_first_not_of(" \t", above);
            if (word == std::string::npos || text_[word] != '#' || above == 0)
                break;  // a comment at the very top is the file's own
            begin = above;
        }
        return {begin, end};
    }

    std::string indent(const toml::table& t) const {
        for (const auto& [key, node] : t)
            if (!node.is_table() || node.as_table()->is_inline()) {
                if (const auto* list = node.as_array();
                    list && !list->empty() && list->front().is_table() && !list->front().as_table()->is_inline())
                    continue;
                const auto at = offset(key.source().begin);
                return blanks(at);
            }
        return headed(t) ? blanks(offset(t.source().begin)) : "";
    }

    // Where the last of a headed table's own keys ends (or its header).
    std::size_t own_end(const toml::table& t) const { return line_end(last_byte(t, false)); }

    std::optional<Range> value(const toml::table& t, const std::string& key) const {
        const auto* node = t.get(key);
        if (!node) return std::nullopt;
        return range(*node);
    }

    std::optional<std::size_t> key_begin(const toml::table& t, const std::string& key) const {
        for (const auto& [k, node] : t)
            if (k.str() == key) return offset(k.source().begin);
        return std::nullopt;
    }

    // Before the first header, and before the comments that stand over it; or the end. What stands over it may be the
    // last lines of a text: nothing goes before the end of the root's own values.
    std::size_t first_header() const {
        if (headers_.empty()) return text_.size();
        const std::size_t header = line_start(headers_.front());
        std::size_t least = 0;
        for (const auto& [key, node] : root_) {
            const auto* list = node.as_array();
            const auto* t = list && !list->empty() ? list->front().as_table() : node.as_table();
            if ((t && headed(*t)) || offset(node.source().begin) >= header) continue;
            least = std::max(least, line_end(range(node).end - 1));
        }
        bool commented = false;
        std::size_t at = header;
        while (at > least) {
            const auto above = line_start(at - 1), word = text_.find_first_not_of(" \t\r", above);
            if (text_[word] != '#' && text_[word] != '\n') break;
            commented = commented || text_[word] == '#';
            at = above;
        }
        return commented ? at : header;
    }

private:
    std::string blanks(std::size_t at) const {
        const auto start = line_start(at);
        const auto word = text_.find_first_not_of(" \t", start);
        return text_.substr(start, (word == std::string::npos ? start : word) - start);
    }

    void gather(const toml::node& node) {
        if (const auto* t = node.as_table()) {
            if (t != &root_ && headed(*t)) headers_.push_back(offset(t->source().begin));
            for (const auto& [key, child] : *t) gather(child);
        } else if (const auto* list = node.as_array()) {
            for (const auto& child : *list) gather(child);
        }
    }

    std::size_t last_byte(const toml::table& t, bool deep) const {
        std::size_t last = offset(t.source().begin);
        for (const auto& [key, node] : t) {
            const bool below = (node.is_table() && headed(*node.as_table())) ||
                               (node.is_array() && !node.as_array()->empty() && node.as_array()->front().is_table() &&
                                headed(*node.as_array()->front().as_table()));
            if (!below)
                last = std::max(last, range(node).end - 1);
            else if (!deep)
                continue;
            else if (node.is_table())
                last = std::max(last, last_byte(*node.as_table(), true));
            else
                for (const auto& child : *node.as_array()) last = std::max(last, last_byte(*child.as_table(), true));
        }
        return last;
    }

    const std::string& text_;
    std::string file_;
    toml::table root_;
    std::vector<std::size_t> lines_, headers_;
};

void splice(std::string& text, Range where, const std::string& with) {
    // A line put after a last line that has no end of its own must not run into it.
    const bool joins =
        where.begin == text.size() && !text.empty() && text.back() != '\n' && !with.empty() && with.back() == '\n';
    text.replace(where.begin, where.end - where.begin, joins ? "\n" + with : with);
}

void put(std::string& text, const Map& map, const toml::table& t, const std::string& key, const Written& value) {
    if (const auto at = map.value(t, key)) return splice(text, *at, toml_text(value));
    const std::string pair = key_text(key) + " = " + toml_text(value);
    if (map.headed(t) || &t == &map.root()) {
        const auto at = &t == &map.root() ? map.first_header() : map.own_end(t);
        return splice(text, {at, at}, map.indent(t) + pair + "\n");
    }
    if (!t.is_inline()) map.refuse("this table is written with dotted keys; write it under a header of its own");
    const auto brace = map.range(t).end - 1;
    std::size_t at = brace;
    while (at > 0 && (text[at - 1] == ' ' || text[at - 1] == '\t')) --at;
    splice(text, {at, at}, (t.empty() ? " " : ", ") + pair + (at == brace ? " " : ""));
}

void take(std::string& text, const Map& map, const toml::table& t, const std::string& key) {
    const auto from = map.key_begin(t, key);
    if (!from) return;
    const auto to = map.value(t, key)->end;
    if (!t.is_inline()) return splice(text, {map.line_start(*from), map.line_end(to)}, "");
    std::size_t begin = *from, end = to;
    while (end < text.size() && (text[end] == ' ' || text[end] == '\t')) ++end;
    if (text[end] == ',') {
        ++end;
        while (text[end] == ' ') ++end;
    } else {
        end = to;
        while (begin > 0 && text[begin - 1] == ' ') --begin;
        if (begin > 0 && text[begin - 1] == ',') --begin;
    }
    splice(text, {begin, end}, "");
}

std::string step_text(const WrittenTable& keys, const std::string& indent) {
    return indent + "[[finish.step]]\n" + lines_of(keys, indent);
}

}  // namespace

std::string toml_text(const Written& value) {
    if (const auto* text = std::get_if<std::string>(&value.value)) return base::toml_quoted(*text);
    if (const auto* v = std::get_if<double>(&value.value)) return base::shortest(*v);
    if (const auto* b = std::get_if<bool>(&value.value)) return *b ? "true" : "false";
    std::string out;
    if (const auto* list = std::get_if<std::vector<Written>>(&value.value)) {
        bool tables = false;
        for (const auto& item : *list) {
            tables = tables || std::holds_alternative<WrittenTable>(item.value);
            out += (out.empty() ? "" : ", ") + toml_text(item);
        }
        return tables ? "[ " + out + " ]" : "[" + out + "]";
    }
    for (const auto& [key, item] : std::get<WrittenTable>(value.value))
        out += (out.empty() ? "" : ", ") + key_text(key) + " = " + toml_text(item);
    return "{ " + out + " }";
}

void SceneText::set(const std::string& key, const Written& value) {
    const Map map(text_, file_);
    put(text_, map, map.root(), key, value);
}

void SceneText::set(const std::string& table, const std::string& key, const Written& value) {
    const Map map(text_, file_);
    const auto* t = map.root()[table].as_table();
    if (!t) return replace(table, {{key, value}});
    put(text_, map, *t, key, value);
}

void SceneText::set(std::size_t finish, const std::string& key, const Written& value) {
    const Map map(text_, file_);
    put(text_, map, map.finish(finish), key, value);
}

void SceneText::set(std::size_t finish, std::size_t step, const std::string& key, const Written& value) {
    const Map map(text_, file_);
    put(text_, map, map.step(finish, step), key, value);
}

void SceneText::remove(const std::string& key) {
    const Map map(text_, file_);
    take(text_, map, map.root(), key);
}

void SceneText::remove(std::size_t finish, const std::string& key) {
    const Map map(text_, file_);
    take(text_, map, map.finish(finish), key);
}

void SceneText::remove(std::size_t finish, std::size_t step, const std::string& key) {
    const Map map(text_, file_);
    take(text_, map, map.step(finish, step), key);
}

void SceneText::set_part(std::size_t finish, std::size_t step, std::size_t part, const std::string& key,
                         const Written& value) {
    const Map map(text_, file_);
    const auto* mix = map.step(finish, step)["mix"].as_array();
    put(text_, map, map.table(mix && part < mix->size() ? &(*mix)[part] : nullptr, "such part of a mix"), key, value);
}

void SceneText::replace(const std::string& table, const WrittenTable& keys) {
    const Map map(text_, file_);
    const auto block = keys.empty() ? "" : "[" + key_text(table) + "]\n" + lines_of(keys, "");
    if (const auto* t = map.root()[table].as_table()) {
        if (t->is_inline()) {
            Range whole{*map.key_begin(map.root(), table), map.range(*t).end};
            return splice(text_, whole, keys.empty() ? "" : key_text(table) + " = " + toml_text({keys}));
        }
        auto where = map.lines(*t, true);
        where.begin = map.line_start(map.range(*t).begin);  // comments above stay
        if (keys.empty())
            while (where.end < text_.size() && text_[where.end] == '\n') ++where.end;
        return splice(text_, where, block);
    }
    if (keys.empty()) return;
    // A new table stands before the first finish, or at the end.
    const auto* list = map.root()["finish"].as_array();
    const auto* first = list && !list->empty() ? list->front().as_table() : nullptr;
    const auto at = first && map.headed(*first) ? map.lines(*first, false).begin : text_.size();
    splice(text_, {at, at}, (at == text_.size() ? "\n" : "") + block + (at == text_.size() ? "" : "\n"));
}

void SceneText::add_step(std::size_t finish, std::size_t place, const WrittenTable& keys) {
    const Map map(text_, file_);
    const auto& f = map.finish(finish);
    const auto* steps = f["step"].as_array();
    const std::size_t count = steps ? steps->size() : 0;
    if (place > count) map.refuse("there are not so many steps");
    if (count == 0) {
        const auto at = map.own_end(f);
        return splice(text_, {at, at}, step_text(keys, map.indent(f) + "  "));
    }
    const auto& near = map.step(finish, place < count ? place : count - 1);
    const auto lines = map.lines(near, true);
    const auto at = place < count ? lines.begin : lines.end;
    splice(text_, {at, at}, step_text(keys, map.indent(near)));
}

void SceneText::remove_step(std::size_t finish, std::size_t step) {
    const Map map(text_, file_);
    splice(text_, map.lines(map.step(finish, step), true), "");
}

void SceneText::move_step(std::size_t finish, std::size_t step, std::size_t place) {
    const Map map(text_, file_);
    const auto from = map.lines(map.step(finish, step), true), to = map.lines(map.step(finish, place), true);
    std::string block = text_.substr(from.begin, from.end - from.begin);
    if (block.back() != '\n') block += '\n';
    if (place < step) {
        splice(text_, from, "");
        splice(text_, {to.begin, to.begin}, block);
    } else if (place > step) {
        splice(text_, {to.end, to.end}, block);
        splice(text_, from, "");
    }
}

void SceneText::add_finish(const std::string& name, const std::vector<WrittenTable>& steps) {
    const Map map(text_, file_);
    std::string block = "\n[[finish]]\nname = " + base::toml_quoted(name) + "\n";
    for (const auto& s : steps) block += step_text(s, "  ");
    const auto* list = map.root()["finish"].as_array();
    const auto at = list && !list->empty() ? map.lines(map.finish(list->size() - 1), true).end : text_.size();
    splice(text_, {at, at}, block);
}

void SceneText::copy_finish(std::size_t like, const std::string& name) {
    const Map map(text_, file_);
    SceneText copy("format = 1\n" + finish_text(like), file_);
    copy.set(std::size_t{0}, "name", {name});
    const auto* list = map.root()["finish"].as_array();
    const auto at = map.lines(map.finish(list->size() - 1), true).end;
    splice(text_, {at, at}, "\n" + copy.text().substr(11));
}

void SceneText::remove_finish(std::size_t finish) {
    const Map map(text_, file_);
    auto where = map.lines(map.finish(finish), true);
    while (where.end < text_.size() && text_[where.end] == '\n') ++where.end;
    splice(text_, where, "");
}

std::string SceneText::finish_text(std::size_t finish) const {
    const Map map(text_, file_);
    const auto where = map.lines(map.finish(finish), true);
    std::string block = text_.substr(where.begin, where.end - where.begin);
    if (!block.empty() && block.back() != '\n') block += '\n';
    return block;
}

std::string SceneText::without_finishes() const {
    const Map map(text_, file_);
    std::string out = text_;
    const auto* list = map.root()["finish"].as_array();
    for (std::size_t i = list ? list->size() : 0; i-- > 0;) splice(out, map.lines(map.finish(i), true), "");
    return out;
}

}  // namespace foretone::scene
