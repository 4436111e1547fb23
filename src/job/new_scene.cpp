// What is written is what a scene's reader takes, with a comment beside each key that says what else may stand there.
// Amounts are common practice and said to be so: a powder dye at 10 g/L (a third of an ounce a quart), a resin at the
// cut of its file.

#include "foretone/job/new_scene.hpp"

#include <algorithm>

#include <fmt/core.h>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/material/material.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/trade_words.hpp"

namespace foretone::job {
namespace {
using material::Kind;

// Parts of liquid to one of a ready dye: what their files advise.
constexpr int usual_thinning = 9;

const material::Material* found(const scene::Library& library, const std::string& id, material::Material& into) {
    const auto* entry = library.find(id);
    if (!entry || !entry->kind) return nullptr;
    into = library.material(id);
    return &into;
}

void add_unknown(scene::Problems& problems, const std::string& id, const char* option,
                 const std::vector<std::string>& choices, const char* what) {
    problems.add("material-unknown", {option},
                 std::string("there is no ") + what + " '" + id.substr(0, 60) + "'." +
                     scene::material_suggestion(id, choices) + " ('foretone materials' lists all)");
}

std::vector<std::string> finishing_ids(const scene::Library& library) {
    std::vector<std::string> out;
    for (const auto& id : library.ids())
        if (const auto* entry = library.find(id); entry && entry->kind && *entry->kind != Kind::wood) out.push_back(id);
    return out;
}

std::string step_text(const NewStep& step, const scene::Library& library, schedule::UnitSystem units) {
    const material::Material m = library.material(step.use);
    const auto& facts = material::facts(m.kind);
    std::string out = "  [[finish.step]]\n";
    if (facts.powder) {
        std::string carrier = "water";
        if (const auto* dye = std::get_if<material::Dye>(&m.data); dye && !dye->carriers.empty())
            carrier = dye->carriers.front();
        const bool us = units == schedule::UnitSystem::us;
        out += fmt::format("  mix = [ {{ use = \"{}\", {} }}, {{ use = \"{}\", parts = 1 }} ]\n", m.id,
                           us ? "oz_per_qt = 0.33" : "g_per_l = 10", carrier);
    } else if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        out += fmt::format(
            "  # {}, thinned 1:{} (common practice of ready dyes: neat, they go on nearly black)\n"
            "  mix = [ {{ use = \"{}\", parts = 1 }}, {{ use = \"{}\", parts = {} }} ]\n",
            m.name, usual_thinning, m.id, stock->carrier, usual_thinning);
    } else {
        out += fmt::format("  use = \"{}\"{}\n", m.id,
                           std::string(m.id.size() < 24 ? 24 - m.id.size() : 1, ' ') + "# " + m.name);
    }
    const bool film = facts.first_try == material::FirstTry::brushed;
    if (const auto* b = std::get_if<material::Binder>(&m.data); b && b->cut_lb)
        out += fmt::format("  cut_lb = {:<22}# pounds of flakes per US gallon of alcohol\n",
                           base::at_most(b->cut_lb->value, 2));
    out += fmt::format("  coats = {:<23}# how many, one like the other\n", std::max(1, step.coats));
    if (film) out += "  method = \"brush\"              # or wipe, spray, roll\n";
    return out;
}

// The id of what is said as people say it: "Garnet shellac", "tung oil". As it stands, if there is none.
std::string id_of(const scene::Library& library, const std::string& said) {
    const auto word = base::replaced(base::lower(said), " ", "-");
    if (library.find(word)) return word;
    for (const std::string_view end : {"-oil", "-dye", "-finish"})
        if (word.ends_with(end) && library.find(word.substr(0, word.size() - end.size())))
            return word.substr(0, word.size() - end.size());
    std::string only;
    for (const auto& id : library.ids())
        if (id.ends_with("-" + word)) {
            if (!only.empty()) return said;  // there are several: which one is asked
            only = id;
        }
    return only.empty() ? said : only;
}

// "walnut-dye" names a color by a wood: what is meant is a dye, and the library's are named by their tones.
std::string wood_in_finish(const std::string& word, const scene::Library& library) {
    std::vector<std::string> ready_dyes;
    for (const auto& id : library.ids(Kind::stock)) ready_dyes.push_back(id);
    return "'" + word +
           "' is a wood; it goes with --wood. The ready dyes go by their tones: " + base::joined(ready_dyes);
}

std::string finish_name(const std::vector<NewStep>& steps, std::size_t number) {
    std::vector<std::string> words;
    for (const auto& s : steps) words.push_back(base::replaced(s.use, "-", " "));
    auto name = base::joined(words, ", then ");
    if (name.size() > 60) name = "finish " + std::to_string(number + 1);
    return name;
}

bool all_of(std::string_view text, std::string_view chars) {
    return text.find_first_not_of(chars) == std::string_view::npos;
}

std::string target_text(const NewScene& s, const std::vector<std::string>& names) {
    const auto t = std::string(base::trimmed(s.target));
    std::string out =
        "\n[target]                        # what it should look like: match, coats and correct go by it\n";
    if (std::find(names.begin(), names.end(), t) != names.end()) return out + "finish = " + base::toml_quoted(t) + "\n";
    if (t.starts_with('#'))
        return out + "srgb = " + base::toml_quoted(t) + "               # a screen's color: weak, under D65 alone\n";
    if (all_of(t, "0123456789.,-+ []"))
        return out + "lab = [" + std::string(base::trimmed(t, "[] ")) +
               "]\nlight = " + base::toml_quoted(s.lights.front()) +
               "                   # under which it was read\nobserver = \"2deg\"\n";
    return out + "reflectance = " + base::toml_quoted(t) + "   # a reading; sample = \"NAME\" chooses one of several\n";
}

}  // namespace

std::vector<NewStep> read_steps(const std::string& text, const scene::Library& library) {
    std::vector<NewStep> out;
    scene::Problems problems;  // every word that is wrong, at once
    for (const auto& part : base::split(text, ',')) {
        NewStep step;
        std::string word(base::trimmed(part));
        const auto mark = word.find_last_of("xX");
        if (mark != std::string::npos && mark > 0 && mark + 1 < word.size() && (word[mark - 1] == ' ')) {
            const auto n = base::number_in(base::trimmed(std::string_view(word).substr(mark + 1)));
            if (n && *n >= 1 && *n <= 30 && *n == static_cast<int>(*n)) {
                step.coats = static_cast<int>(*n);
                word = std::string(base::trimmed(std::string_view(word).substr(0, mark)));
            }
        }
        if (word.empty())
            throw scene::InputError(
                "steps-syntax", {"--finish"},
                "'" + text.substr(0, 60) + "' is no list of coats: write orange-shellac x2, waterborne-acrylic x3");
        word = id_of(library, word);
        step.use = word;
        material::Material m;
        if (!found(library, word, m))
            add_unknown(problems, word, "--finish", finishing_ids(library), "material");
        else if (m.kind == Kind::wood)
            problems.add("material-kind", {"--finish"}, wood_in_finish(word, library));
        out.push_back(step);
    }
    problems.raise();
    return out;
}

std::string new_scene_text(const NewScene& said, const scene::Library& library) {
    NewScene s = said;
    s.wood = id_of(library, s.wood);
    scene::Problems problems;
    material::Material wood;
    if (!found(library, s.wood, wood))
        add_unknown(problems, s.wood, "--wood", library.ids(Kind::wood), "wood");
    else if (wood.kind != Kind::wood)
        problems.add("material-kind", {"--wood"},
                     "'" + s.wood + "' is a " + std::string(material::word(wood.kind)) + ", not a wood." +
                         scene::suggestion(s.wood, library.ids(Kind::wood)));
    std::string lights;
    for (auto& l : s.lights) {
        if (const auto meant = scene::light_meant_by(l); !library.has_light(l) && !meant.empty()) l = meant;
        if (!library.has_light(l))
            problems.add(
                "light-unknown", {"--light"},
                "there is no light '" + l.substr(0, 40) +
                    "': write daylight, lamp, warm LED or cool LED, one of the library (D65, A, LED-2700 ...) "
                    "or kelvins (P2700)" +
                    (scene::suggestion(l, library.lights()).empty() ? ""
                                                                    : "." + scene::suggestion(l, library.lights())));
        lights += (lights.empty() ? "" : ", ") + base::toml_quoted(l);
    }
    problems.raise();
    const std::string title = s.title.empty() ? wood.name : s.title;
    std::string out =
        "# A scene: one wood, one finish or more, the lights where the piece will live. Change what you like.\n"
        "# 'foretone preview' shows it, 'foretone plan' says what to mix; scenes/README.md has every key.\n"
        "format = 1\n";
    out += "title = " + base::toml_quoted(title) + "\n\n[look]\n";
    out += "lights = [" + lights + "]      # D65 daylight, A a filament lamp; LED-2700, LED-4000 ...\n";
    out += "observer = \"2deg\"               # small fields; \"10deg\" for wide ones\n";
    out += "geometry = \"45/0\"               # without gloss; \"d/8-included\" is with it\n";
    out += fmt::format("units = {:<24}# of what is printed: \"us\" or \"metric\"\n",
                       "\"" + std::string(schedule::word(s.units)) + "\"");
    out += "\n[wood]\n";
    out += fmt::format("use = {:<26}# {}\n", base::toml_quoted(s.wood), wood.name);
    out +=
        "# Your own board in its place, read by an instrument: take out the line above, and the # below.\n"
        "# reflectance = \"board.csv\"      # or lab = [L, a, b], light = \"D65\", observer = \"2deg\"\n"
        "# geometry = \"45/0\"\n"
        "# like = " +
        base::toml_quoted(s.wood) + "            # whose pores, depth and surface it has; or \"generic\"\n";
    std::vector<std::string> names;
    for (std::size_t i = 0; i < s.finishes.size(); ++i) {
        auto name = finish_name(s.finishes[i], i);
        if (std::find(names.begin(), names.end(), name) != names.end()) name += " " + std::to_string(i + 1);
        names.push_back(name);
        out += "\n[[finish]]\nname = " + base::toml_quoted(name) + "\n";
        for (const auto& step : s.finishes[i]) out += step_text(step, library, s.units);
    }
    if (!s.target.empty()) out += target_text(s, names);
    return out;
}

}  // namespace foretone::job
