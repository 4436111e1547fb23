#include "foretone/scene/notebook.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/scene/text_file.hpp"
#include "material_table.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {
namespace {

// On one line: a line break or another control character inside is a blank.
std::string in_quotes(std::string text) {
    for (char& c : text)
        if (const auto code = static_cast<unsigned char>(c); code < 0x20 || code == 0x7f) c = ' ';
    return base::toml_quoted(text);
}

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

std::string entry_text(const NotebookEntry& e) {
    std::string out = "\n[[entry]]\ndate = " + in_quotes(e.date) + "\nfinish = " + in_quotes(e.finish) +
                      "\nrecipe = " + in_quotes(e.recipe) + "\n";
    const auto add = [&](const char* key, const std::string& text) {
        if (!text.empty()) out += std::string(key) + " = " + in_quotes(text) + "\n";
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
    entry.only(
        {"date", "finish", "recipe", "wood", "geometry", "predicted", "sample", "read", "dE00", "changed", "note"});
    NotebookEntry out;
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

// The notebook in `text`. Throws InputError.
std::vector<NotebookEntry> read_text_of(const std::string& text, const std::string& file) {
    Problems problems;
    const auto table = parse_toml(text, file);
    const Keys root(table, file, "the job notebook", problems);
    root.only({"format", "title", "entry"});
    if (!root.has("format"))
        root.fault("key-missing", {file, 1, 1}, "format = 1 is missing: is this a job notebook?");
    else
        root.integer("format", 1, 1);
    std::vector<NotebookEntry> out;
    if (const auto* node = table.get("entry")) {
        const auto* list = node->as_array();
        if (!list)
            root.fault("value-type", root.place_of("entry"), "entries are tables: [[entry]]");
        else
            for (const auto& item : *list) {
                if (const auto* t = item.as_table())
                    out.push_back(read_entry(Keys(*t, file, "[[entry]]", problems)));
                else
                    root.fault("value-type", root.place_of(item), "entries are tables: [[entry]]");
            }
    }
    problems.raise();
    return out;
}

}  // namespace

std::filesystem::path notebook_path(const std::filesystem::path& scene) {
    auto path = scene;
    path.replace_extension(".job.toml");
    return path;
}

Notebook read_notebook(const std::filesystem::path& scene) {
    const auto path = notebook_path(scene);
    Notebook out{path.string(), {}, false};
    std::error_code error;
    if (!std::filesystem::exists(std::filesystem::symlink_status(path, error))) return out;
    out.there = true;
    out.entries = read_text_of(read_text(path), out.file);
    return out;
}

OutputFile with_entry(const std::filesystem::path& scene, const std::string& title, const NotebookEntry& entry) {
    const auto path = notebook_path(scene);
    if (!is_date(entry.date))
        throw InputError("date-syntax", {path.string()},
                         "'" + entry.date.substr(0, 30) + "' is no date; write it as 2026-03-02");
    std::string text;
    if (const auto before = read_notebook(scene); before.there) {
        text = read_text(path);
        if (!text.empty() && text.back() != '\n') text += '\n';
    } else {
        text = "# Job notebook of " + scene.filename().string() +
               ": entries are only added, never rewritten.\nformat = 1\ntitle = " + in_quotes(title) + "\n";
    }
    text += entry_text(entry);
    if (text.size() > largest_text_file)
        throw InputError("file-too-large", {path.string()},
                         "the notebook would grow over " + std::to_string(largest_text_file) +
                             " bytes; start another beside a copy of the scene");
    read_text_of(text, path.string());  // what is written can be read again
    auto out = OutputFile::text(path, text);
    out.otherwise =
        "the notebook lies beside its scene: copy the scene into a folder that can be written, or leave out --keep";
    return out;
}

}  // namespace foretone::scene
