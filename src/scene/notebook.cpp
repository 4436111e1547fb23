#include "foretone/scene/notebook.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/scene/text_file.hpp"
#include "material_table.hpp"
#include "notebook_text.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {
namespace {

std::string in_quotes(std::string_view text) { return base::toml_quoted(base::one_line(text)); }

// A calendar day; the 29th of February only in leap years.
bool is_date(const std::string& s) {
    if (s.size() != 10 || s[4] != '-' || s[7] != '-') return false;
    int v[3] = {0, 0, 0}, field = 0;
    for (std::size_t i = 0; i < s.size(); ++i) {
        if (i == 4 || i == 7)
            ++field;
        else if (s[i] < '0' || s[i] > '9')
            return false;
        else
            v[field] = 10 * v[field] + (s[i] - '0');
    }
    const bool leap = (v[0] % 4 == 0 && v[0] % 100 != 0) || v[0] % 400 == 0;
    const int days[] = {31, leap ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return v[0] >= 1900 && v[1] >= 1 && v[1] <= 12 && v[2] >= 1 && v[2] <= days[v[1] - 1];
}

std::string hundredths(double v) { return base::shortest(std::round(v * 100) / 100); }

std::string colors_text(const std::vector<NotedColor>& colors) {
    std::string out = "[";
    for (const auto& c : colors)
        out += (out.size() > 1 ? ", " : " ") + std::string("{ light = ") + in_quotes(c.light) +
               ", observer = " + in_quotes(c.observer) + ", lab = [" + hundredths(c.lab.l) + ", " +
               hundredths(c.lab.a) + ", " + hundredths(c.lab.b) + "] }";
    return out + " ]";
}

std::vector<NotedColor> read_colors(const Keys& entry, const char* key) {
    std::vector<NotedColor> out;
    const auto* node = entry.table().get(key);
    if (!node) return out;
    const auto* list = node->as_array();
    if (!list) {
        entry.fault("value-type", entry.place_of(key),
                    std::string(key) + " is a list: [ { light = \"D65\", observer = \"2deg\", lab = [60, 10, 30] } ]");
        return out;
    }
    for (const auto& item : *list) {
        const auto* table = item.as_table();
        if (!table) {
            entry.fault("value-type", entry.place_of(item),
                        std::string("each of ") + key + " is { light = , observer = , lab = [L, a, b] }");
            continue;
        }
        const Keys color(*table, entry.file(), "a color of the notebook", entry.problems());
        color.only({"light", "observer", "lab"});
        NotedColor c{color.text("light").value_or(""), color.text("observer").value_or(""), {}};
        const auto lab = color.numbers("lab");
        if (c.light.empty() || c.observer.empty() || !lab || lab->size() != 3 ||
            !std::all_of(lab->begin(), lab->end(), [](double v) { return std::abs(v) <= 200; })) {
            color.fault("notebook-color", color.here(),
                        "a color of the notebook needs light, observer and lab = [L, a, b]");
            continue;
        }
        c.lab = {(*lab)[0], (*lab)[1], (*lab)[2]};
        out.push_back(c);
    }
    return out;
}

NotebookEntry read_entry(const Keys& entry) {
    entry.only({"id", "date", "finish", "recipe", "wood", "geometry", "predicted", "sample", "read", "dE00", "changed",
                "note"});
    NotebookEntry out;
    out.id = entry.integer("id", 1, 1'000'000'000).value_or(0);
    for (const auto& [key, text] : {std::pair{"date", &out.date},
                                    {"finish", &out.finish},
                                    {"recipe", &out.recipe},
                                    {"wood", &out.wood},
                                    {"geometry", &out.geometry},
                                    {"sample", &out.sample},
                                    {"changed", &out.changed},
                                    {"note", &out.note}})
        *text = entry.text(key).value_or("");
    for (const char* key : {"date", "finish"})
        if (!entry.has(key))
            entry.fault("key-missing", entry.here(), std::string("an entry of the notebook needs its ") + key);
    if (entry.has("date") && !is_date(out.date))
        entry.fault("date-syntax", entry.place_of("date"),
                    "'" + out.date.substr(0, 30) + "' is no date; write it as 2026-03-02");
    out.predicted = read_colors(entry, "predicted");
    out.read = read_colors(entry, "read");
    out.de00 = entry.number("dE00", 0, 1000);
    return out;
}

// Reads book.text. Throws InputError.
void read_text_of(BookText& book, const std::string& file) {
    Problems problems;
    const auto table = parse_toml(book.text, file);
    const Keys root(table, file, "the job notebook", problems);
    root.only({"format", "title", "entry"});
    if (!root.has("format"))
        root.fault("key-missing", {file, 1, 1}, "format = 1 is missing: is this a job notebook?");
    else
        root.integer("format", 1, 1);
    std::vector<NotebookEntry> out;
    bool tables = true;
    if (const auto* node = table.get("entry")) {
        const auto* list = node->as_array();
        if (!list)
            root.fault("value-type", root.place_of("entry"), "entries are tables: [[entry]]");
        else
            for (const auto& item : *list) {
                if (const auto* t = item.as_table()) {
                    out.push_back(read_entry(Keys(*t, file, "[[entry]]", problems)));
                    tables = tables && !t->is_inline();
                } else
                    root.fault("value-type", root.place_of(item), "entries are tables: [[entry]]");
            }
    }
    problems.raise();
    book.tables = tables && !out.empty();
    book.entries = std::move(out);
}

// Where the last entry begins, if the text ends in the middle of a line: our own entries never do.
std::optional<std::size_t> cut_entry(const std::string& text) {
    if (text.empty() || text.back() == '\n') return std::nullopt;
    const auto at = text.rfind("\n[");
    return at == std::string::npos ? std::nullopt : std::optional(at + 1);
}

void tell_twice(const BookText& book, const std::string& file, std::vector<Problem>& notes) {
    std::set<int> seen;
    for (const auto& e : book.entries)
        if (e.id > 0 && !seen.insert(e.id).second)
            notes.push_back({"notebook-id-twice",
                             {file},
                             "there are two entries with id = " + std::to_string(e.id) +
                                 ": were two notebooks put together? Give one of them another id"});
}

}  // namespace

BookText read_book(const std::string& text, const std::string& file) {
    BookText out{text, ""};
    try {
        read_text_of(out, file);
    } catch (const InputError&) {
        const auto cut = cut_entry(text);
        if (!cut) throw;
        out.torn = text.substr(*cut);
        out.text = text.substr(0, *cut);
        read_text_of(out, file);
    }
    return out;
}

std::string book_head(const std::filesystem::path& scene, const std::string& title) {
    return "# Job notebook of " + in_quotes(scene.filename().string()) +
           ": entries are only added, never rewritten.\nformat = 1\ntitle = " + in_quotes(title) + "\n";
}

std::string entry_text(const NotebookEntry& e) {
    std::string out = "\n[[entry]]\nid = " + std::to_string(e.id) + "\ndate = " + in_quotes(e.date) +
                      "\nfinish = " + in_quotes(e.finish) + "\nrecipe = " + in_quotes(e.recipe) + "\n";
    const auto add = [&](const char* key, const std::string& words) {
        if (!words.empty()) out += std::string(key) + " = " + in_quotes(words) + "\n";
    };
    add("wood", e.wood);
    add("geometry", e.geometry);
    if (!e.predicted.empty()) out += "predicted = " + colors_text(e.predicted) + "\n";
    add("sample", e.sample);
    if (!e.read.empty()) out += "read = " + colors_text(e.read) + "\n";
    if (e.de00) out += "dE00 = " + hundredths(*e.de00) + "\n";
    add("changed", e.changed);
    add("note", e.note);
    return out;
}

void require_date(const std::string& date, const std::string& file) {
    if (!is_date(date))
        throw InputError("date-syntax", {file}, "'" + date.substr(0, 30) + "' is no date; write it as 2026-03-02");
}

std::filesystem::path notebook_path(const std::filesystem::path& scene) {
    auto path = scene;
    path.replace_extension(".job.toml");
    return path;
}

Notebook read_notebook(const std::filesystem::path& scene) {
    const auto path = notebook_path(scene);
    Notebook out{path.string(), {}, false, {}};
    std::error_code error;
    if (!std::filesystem::exists(std::filesystem::symlink_status(path, error))) return out;
    out.there = true;
    auto book = read_book(read_text(path), out.file);
    if (!book.torn.empty())
        out.notes.push_back(
            {"notebook-torn",
             {out.file, 1 + static_cast<std::size_t>(std::count(book.text.begin(), book.text.end(), '\n')), 1},
             "the last entry is cut off and is left out; the next --keep puts it aside in a file of its "
             "own"});
    tell_twice(book, out.file, out.notes);
    out.entries = std::move(book.entries);
    return out;
}

}  // namespace foretone::scene
