#include <algorithm>

#include "material_table.hpp"

namespace foretone::scene {
namespace {
using material::Grain;

const std::vector<std::string>& pore_words() {
    static const std::vector<std::string> words(material::pore_words.begin(), material::pore_words.end());
    return words;
}

material::Pores pores_from(const std::string& word) {
    const auto at = std::find(pore_words().begin(), pore_words().end(), word) - pore_words().begin();
    return static_cast<material::Pores>(at);
}

// pores = { value = "ring-porous", mark = , source = }; in a scene the word alone will do.
bool read_pores(const Keys& keys, bool in_scene, Grain& out) {
    const auto* node = keys.table().get("pores");
    if (!node) {
        if (!in_scene) keys.fault("key-missing", keys.here(), "pores is missing: " + either(pore_words()));
        return false;
    }
    if (in_scene && node->is_string()) {
        if (const auto word = keys.choice("pores", pore_words())) out.pores = pores_from(*word);
        out.pores_from = {material::Mark::stated, "stated in the scene"};
        return true;
    }
    const auto* table = node->as_table();
    if (!table) {
        keys.fault(in_scene ? "value-type" : "provenance-missing", keys.place_of(*node),
                   "pores must say where it comes from: { value = , mark = , source = }");
        return true;
    }
    const Keys fact(*table, keys.file(), "pores", keys.problems());
    fact.only({"value", "mark", "source"});
    if (const auto word = fact.choice("value", pore_words()))
        out.pores = pores_from(*word);
    else if (!fact.has("value"))
        fact.fault("key-missing", fact.here(), "pores has no value: " + either(pore_words()));
    out.pores_from = read_provenance(fact, "pores", in_scene);
    return true;
}

}  // namespace

bool read_grain(const Keys& keys, bool in_scene, std::optional<Grain>& out) {
    const bool from_nothing = !out;
    Grain grain = out.value_or(material::plain_grain());
    bool whole = read_pores(keys, in_scene, grain);
    std::vector<std::string> allowed = {"pores"};
    for (const auto& at : material::grain_figures(grain)) {
        allowed.push_back(at.key);
        if (const auto* node = keys.table().get(at.key)) {
            read_figure(keys, *node, at, in_scene, *at.figure);
        } else {
            whole = false;
            if (!in_scene && from_nothing) keys.fault("key-missing", keys.here(), at.key + " is missing");
        }
    }
    keys.only(allowed);
    out = std::move(grain);
    return whole;
}

}  // namespace foretone::scene
