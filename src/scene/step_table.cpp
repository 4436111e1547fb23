#include "step_table.hpp"

#include <array>

#include "foretone/schedule/suction.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::scene {
namespace {
using schedule::Amount;
using schedule::Part;
using schedule::Step;

constexpr std::size_t most_parts = 40;  // of one mix

struct AmountKey {
    const char* key;
    Amount amount;
    double low, high;
    const char* unit;
};

constexpr std::array<AmountKey, 9> amount_keys = {{{"parts", Amount::parts, 1e-4, 1e4, ""},
                                                   {"parts_weight", Amount::parts_weight, 1e-4, 1e4, ""},
                                                   {"percent_volume", Amount::percent_volume, 1e-4, 100, "%"},
                                                   {"percent_weight", Amount::percent_weight, 1e-4, 100, "%"},
                                                   {"ml", Amount::ml, 1e-3, 1e6, "mL"},
                                                   {"g", Amount::g, 1e-4, 1e6, "g"},
                                                   {"drops", Amount::drops, 0.1, 1e5, "drops"},
                                                   {"g_per_l", Amount::g_per_l, 1e-3, 500, "g/L"},
                                                   {"oz_per_qt", Amount::oz_per_qt, 1e-4, 20, "oz/qt"}}};

std::vector<std::string> part_keys() {
    std::vector<std::string> keys = {"use"};
    for (const auto& a : amount_keys) keys.emplace_back(a.key);
    keys.emplace_back("rest");
    return keys;
}

Part read_part(const Keys& keys) {
    keys.only(part_keys());
    Part part;
    if (const auto use = keys.text("use"))
        part.use = *use;
    else if (!keys.has("use"))
        keys.fault("key-missing", keys.here(), "a part of a mix needs use = \"material\"");
    int said = 0;
    for (const auto& a : amount_keys) {
        if (!keys.has(a.key)) continue;
        ++said;
        part.amount = a.amount;
        part.value = keys.number(a.key, a.low, a.high, a.unit).value_or(1);
    }
    if (const auto* rest = keys.table().get("rest")) {
        ++said;
        part.amount = Amount::rest;
        if (rest->value_exact<bool>() != true) keys.fault("value-type", keys.place_of(*rest), "rest can only be true");
    }
    auto choices = part_keys();
    choices.erase(choices.begin());
    if (said == 0) keys.fault("key-missing", keys.here(), "how much of '" + part.use + "'? Give " + either(choices));
    if (said > 1) keys.fault("key-conflict", keys.here(), "the amount of '" + part.use + "' is said more than once");
    return part;
}

void read_mix(const Keys& keys, Step& step, Scene::StepPlace& place) {
    if (keys.has("use") == keys.has("mix")) {
        const bool both = keys.has("use");
        keys.fault(both ? "key-conflict" : "step-empty", keys.here(),
                   both ? "a step has either use = \"material\" or mix = [ ... ], not both"
                        : "this step puts nothing on: it needs use = \"material\" or mix = [ ... ]");
        return;
    }
    if (keys.has("use")) {
        if (const auto use = keys.text("use")) step.mix.push_back({*use, Amount::parts, 1});
        place.parts.push_back(keys.place_of(*keys.table().get("use")));
        return;
    }
    const auto* list = keys.table().get("mix")->as_array();
    if (!list || list->empty()) {
        keys.fault("step-empty", keys.place_of("mix"),
                   "mix must be a list of parts: [ { use = \"material\", parts = 3 }, ... ]");
        return;
    }
    if (list->size() > most_parts) {
        keys.fault("parts-many", keys.place_of((*list)[most_parts]),
                   "this mix has " + std::to_string(list->size()) + " parts; at most " + std::to_string(most_parts) +
                       " are mixed: put equal ones together");
        return;
    }
    for (const auto& item : *list) {
        place.parts.push_back(keys.place_of(item));
        if (const auto* table = item.as_table())
            step.mix.push_back(read_part(Keys(*table, keys.file(), "a part of a mix", keys.problems())));
        else
            keys.fault("value-type", keys.place_of(item), "a part of a mix is { use = \"material\", parts = 3 }");
    }
}

void read_wet(const Keys& keys, Step& step) {
    int said = 0;
    const auto take = [&](const char* key, double low, double high, const char* unit, std::optional<double>& out,
                          auto convert) {
        if (!keys.has(key)) return;
        ++said;
        if (const auto v = keys.number(key, low, high, unit)) out = convert(*v);
    };
    const auto same = [](double v) { return v; };
    take("wet_um", 1, 500, "um", step.wet_um, same);
    take("wet_mil", 0.04, 20, "mil", step.wet_um, schedule::um_from_mil);
    take("wet_g_per_m2", 1, 500, "g/m2", step.wet_g_per_m2, same);
    take("coverage_m2_per_l", 2, 1000, "m2/L", step.coverage_m2_per_l, same);
    take("coverage_ft2_per_gal", 80, 40000, "ft2/gal", step.coverage_m2_per_l, schedule::m2_per_l_from_ft2_per_gal);
    if (said > 1)
        keys.fault("key-conflict", keys.here(),
                   "how much goes on is said more than once (wet_... and coverage_... are the same thing)");
}

void read_yes_no(const Keys& keys, const char* key, bool& out) {
    const auto* node = keys.table().get(key);
    if (!node) return;
    if (const auto v = node->value_exact<bool>())
        out = *v;
    else
        keys.fault("value-type", keys.place_of(*node), std::string(key) + " is true or false");
}

}  // namespace

Step read_step(const Keys& keys, Scene::StepPlace& place) {
    keys.only({"use",
               "mix",
               "coats",
               "method",
               "wet_um",
               "wet_mil",
               "wet_g_per_m2",
               "coverage_m2_per_l",
               "coverage_ft2_per_gal",
               "cut_lb",
               "sheen_gu60",
               "after_days",
               "scuff",
               "ready_cut_lb",
               "sand",
               "water_pop",
               "flood_minutes",
               "remainder",
               "passes",
               "toner_strength"});
    Step step;
    place.step = keys.here();
    read_mix(keys, step, place);
    read_wet(keys, step);
    if (const auto coats = keys.integer("coats", 1, 30)) step.coats = *coats;
    const std::vector<std::string> methods(material::method_words.begin(), material::method_words.end());
    if (const auto method = keys.choice("method", methods))
        for (std::size_t i = 0; i < methods.size(); ++i)
            if (methods[i] == *method) step.method = static_cast<material::Method>(i);
    step.cut_lb = keys.number("cut_lb", 0.1, 6, "lb/gal");
    step.sheen_gu60 = keys.number("sheen_gu60", 0, 100, "gloss units");
    step.ready_cut_lb = keys.number("ready_cut_lb", 0.1, 6, "lb/gal");
    if (step.ready_cut_lb && !step.cut_lb)
        keys.fault("key-missing", keys.place_of("ready_cut_lb"), "ready_cut_lb needs cut_lb: the cut it is thinned to");
    if (step.ready_cut_lb && step.cut_lb && *step.cut_lb > *step.ready_cut_lb)
        keys.fault("value-range", keys.place_of("cut_lb"),
                   "a ready cut can only be thinned: cut_lb is above ready_cut_lb");
    step.after_days = keys.number("after_days", 0, 3650, "days");
    read_yes_no(keys, "scuff", step.scuff);
    read_yes_no(keys, "water_pop", step.water_pop);
    step.sand = keys.number("sand", schedule::least_grit, schedule::most_grit, "grit");
    step.flood_minutes = keys.number("flood_minutes", 0.1, 120, "min");
    step.remainder = keys.number("remainder", 0, 1, "");
    step.passes = keys.number("passes", 0.25, 20, "passes");
    step.toner_strength = keys.number("toner_strength", 0.05, 5, "");
    return step;
}

}  // namespace foretone::scene
