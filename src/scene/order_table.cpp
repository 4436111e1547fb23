// [order] of a material file: facts with how sure they are and where they come from, waits, dangers.

#include <algorithm>

#include "material_table.hpp"

namespace foretone::scene {
namespace {
using material::Order;
using material::Sure;
using material::YesNo;

// mark and source of a fact; both are owed by a library, neither by a scene.
template <class T>
void read_source(const Keys& fact, const std::string& key, bool in_scene, material::Fact<T>& out) {
    if (const auto mark = fact.choice("mark", {"published", "practice", "conflicting"}))
        out.sure = *material::sure_from(*mark);
    else if (!fact.has("mark") && !in_scene)
        fact.fault("provenance-missing", fact.here(), key + " has no mark (published, practice or conflicting)");
    if (const auto source = fact.text("source")) out.source = *source;
    if (!out.source.empty()) return;
    if (in_scene)
        out.source = "stated in the scene";
    else
        fact.fault("provenance-missing", fact.here(), key + " has no source");
}

std::optional<YesNo> read_yes_no(const Keys& keys, const std::string& key, bool in_scene) {
    const auto* node = keys.table().get(key);
    if (!node) return std::nullopt;
    YesNo out;
    if (const auto bare = node->value_exact<bool>(); bare && in_scene)
        return YesNo{*bare, Sure::stated, "stated in the scene"};
    const auto* table = node->as_table();
    const auto value = table ? (*table)["value"].value_exact<bool>() : std::nullopt;
    if (!value) {
        keys.fault("value-type", keys.place_of(*node), key + " must be { value = true or false, mark = , source = }");
        return std::nullopt;
    }
    const Keys fact(*table, keys.file(), "the fact " + key, keys.problems());
    fact.only({"value", "mark", "source"});
    out.value = *value;
    read_source(fact, key, in_scene, out);
    return out;
}

std::optional<material::Words> read_words(const Keys& keys, const std::string& key, bool in_scene) {
    const auto* node = keys.table().get(key);
    if (!node) return std::nullopt;
    material::Words out;
    if (node->is_array() && in_scene) {
        if (const auto list = keys.texts(key)) return material::Words{*list, Sure::stated, "stated in the scene"};
        return std::nullopt;
    }
    const auto* table = node->as_table();
    if (!table || !(*table)["value"].is_array()) {
        keys.fault("value-type", keys.place_of(*node), key + " must be { value = [ ... ], mark = , source = }");
        return std::nullopt;
    }
    const Keys fact(*table, keys.file(), "the fact " + key, keys.problems());
    fact.only({"value", "mark", "source"});
    if (const auto list = fact.texts("value")) out.value = *list;
    read_source(fact, key, in_scene, out);
    return out;
}

void read_wait(const Keys& keys, const char* key, const char* unit, double high, bool in_scene,
               std::optional<material::Figure>& out) {
    const auto* node = keys.table().get(key);
    if (!node) return;
    material::FigureAt at;
    at.key = key;
    at.unit = unit;
    at.high = high;
    material::Figure figure;
    if (read_figure(keys, *node, at, in_scene, figure)) out = figure;
}

void read_cautions(const Keys& keys, std::vector<std::string>& out) {
    const auto words = keys.texts("cautions");
    if (!words) return;
    const std::vector<std::string> known(material::caution_words.begin(), material::caution_words.end());
    out.clear();
    for (const auto& w : *words) {
        if (std::find(known.begin(), known.end(), w) == known.end())
            keys.fault("value-choice", keys.place_of("cautions"),
                       "there is no caution '" + w + "'." + suggestion(w, known));
        else
            out.push_back(w);
    }
}

}  // namespace

void read_order(const Keys& keys, bool in_scene, Order& out) {
    struct Named {
        const char* key;
        std::optional<YesNo>* fact;
    };
    const Named facts[] = {{"holds_wax", &out.holds_wax},
                           {"hot_solvent", &out.hot_solvent},
                           {"wrinkles", &out.wrinkles},
                           {"needs_scuff", &out.needs_scuff},
                           {"ties", &out.ties},
                           {"suits_wet_places", &out.suits_wet_places},
                           {"two_component", &out.two_component}};
    std::vector<std::string> allowed = {"redissolved_by", "sticks_not_to", "recoat_early_h",
                                        "recoat_late_h",  "cure_days",     "cautions"};
    for (const auto& f : facts) {
        allowed.emplace_back(f.key);
        if (auto fact = read_yes_no(keys, f.key, in_scene)) *f.fact = std::move(fact);
    }
    keys.only(allowed);
    if (auto words = read_words(keys, "redissolved_by", in_scene)) out.redissolved_by = std::move(words);
    if (const auto* table = keys.sub("sticks_not_to")) {
        const Keys below(*table, keys.file(), "[order.sticks_not_to]", keys.problems());
        const std::vector<std::string> known(material::underlays.begin(), material::underlays.end());
        below.only(known);
        for (const auto& word : known)
            if (auto fact = read_yes_no(below, word, in_scene)) out.sticks_not_to[word] = std::move(*fact);
    }
    read_wait(keys, "recoat_early_h", "h", 24 * 60, in_scene, out.recoat_early_h);
    read_wait(keys, "recoat_late_h", "h", 24 * 365, in_scene, out.recoat_late_h);
    read_wait(keys, "cure_days", "d", 365, in_scene, out.cure_days);
    if (out.recoat_early_h && out.recoat_late_h && out.recoat_late_h->value < out.recoat_early_h->value)
        keys.fault("value-range", keys.here(), "recoat_late_h is before recoat_early_h");
    read_cautions(keys, out.cautions);
}

}  // namespace foretone::scene
