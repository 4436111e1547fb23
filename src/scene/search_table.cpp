#include "search_table.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/color/srgb.hpp"

namespace foretone::scene {
namespace {
using search::CoatChoices;
using search::DyeChoices;

// Bounds of a number that may vary, and how its range is checked.
struct Allowed {
    double low, high;
    const char* unit;
    bool whole = false;
};

std::vector<double> from_to(const Keys& range, const std::string& key, const Allowed& r) {
    range.only({"from", "to", "step"});
    for (const char* end : {"from", "to"})
        if (!range.has(end)) range.fault("key-missing", range.here(), key + " = { from = ..., to = ... } lacks " + end);
    const auto from = range.number("from", r.low, r.high, r.unit), to = range.number("to", r.low, r.high, r.unit);
    const double step = range.number("step", 1e-6, r.high, r.unit).value_or(1);
    if (!from || !to) return {};
    if (*from > *to) {
        range.fault("range-reversed", range.here(),
                    key + " goes from " + base::shortest(*from) + " to " + base::shortest(*to) +
                        "; the smaller number comes first");
        return {};
    }
    if ((*to - *from) / step > 1000) {
        range.fault("range-steps", range.here(), key + " has more than 1000 steps");
        return {};
    }
    std::vector<double> out;
    for (int i = 0; *from + i * step <= *to * (1 + 1e-12) + 1e-12; ++i)
        out.push_back(std::round((*from + i * step) * 1e9) / 1e9);
    return out;
}

/// One number, a list of them, or { from, to, step }: each value once, rising.
std::vector<double> values(const Keys& keys, const std::string& key, const Allowed& r) {
    const auto* node = keys.table().get(key);
    if (!node) return {};
    std::vector<double> out;
    if (const auto* table = node->as_table()) {
        out = from_to(Keys(*table, keys.file(), key, keys.problems()), key, r);
    } else if (const auto* list = node->as_array()) {
        if (list->empty())
            keys.fault("value-empty", keys.place_of(*node),
                       key + " is an empty list: give a number, a list, or { from = ..., to = ..., step = ... }");
        for (const auto& item : *list)
            if (const auto v = keys.number_at(item, key, r.low, r.high, r.unit)) out.push_back(*v);
    } else if (const auto v = keys.number_at(*node, key, r.low, r.high, r.unit)) {
        out.push_back(*v);
    }
    if (r.whole)
        for (const double v : out)
            if (v != std::floor(v)) {
                keys.fault("value-whole", keys.place_of(*node),
                           key + " = " + base::shortest(v) + " must be a whole number");
                return {};
            }
    std::sort(out.begin(), out.end());
    out.erase(std::unique(out.begin(), out.end()), out.end());
    return out;
}

std::vector<int> whole_values(const Keys& keys, const std::string& key, Allowed r) {
    r.whole = true;
    std::vector<int> out;
    for (const double v : values(keys, key, r)) out.push_back(static_cast<int>(v));
    return out;
}

std::vector<std::string> words_of(const std::vector<material::Kind>& kinds) {
    std::vector<std::string> out;
    for (const auto kind : kinds) out.emplace_back(word(kind));
    return out;
}

/// What may be named: how a material is taken, and what the shop owns of it (null: not said).
struct Shelf {
    const Take& take;
    const std::vector<std::string>* on_hand;
    const std::vector<material::Kind>& kinds;
};

// All of these kinds that the shop owns.
std::vector<std::string> owned(const Shelf& shelf, const Place& place) {
    std::vector<std::string> out;
    for (const auto& id : *shelf.on_hand) {
        const auto* m = shelf.take(id, place);
        if (m && std::find(shelf.kinds.begin(), shelf.kinds.end(), m->kind) != shelf.kinds.end()) out.push_back(id);
    }
    return out;
}

/// The materials named under `key`, each of one of the kinds; unnamed, all of these that are on hand.
std::vector<std::string> named(const Keys& keys, const std::string& key, const Shelf& shelf, const std::string& role) {
    const auto& [take, on_hand, kinds] = shelf;
    const auto list = keys.texts(key);
    if (!list && on_hand && !keys.has(key)) {
        auto out = owned(shelf, keys.here());
        if (out.empty())
            keys.fault("search-not-on-hand", keys.here(),
                       "nothing on hand is a " + role + ": on_hand names no " + either(words_of(kinds)));
        return out;
    }
    if (!list) {
        if (!keys.has(key))
            keys.fault("key-missing", keys.here(), "which " + role + "? use = [\"...\"] names at least one");
        return {};
    }
    const auto* nodes = keys.table().get(key)->as_array();
    if (nodes->empty())
        keys.fault("value-empty", keys.place_of(key), key + " is an empty list: name at least one " + role);
    std::vector<std::string> out;
    for (std::size_t i = 0; i < list->size() && i < nodes->size(); ++i) {
        const Place place = keys.place_of((*nodes)[i]);
        const auto* m = take((*list)[i], place);
        if (!m) continue;
        if (std::find(kinds.begin(), kinds.end(), m->kind) == kinds.end())
            keys.fault("material-kind", place,
                       "'" + m->id + "' is a " + std::string(word(m->kind)) + "; here a " + role + " is due: a " +
                           either(words_of(kinds)));
        else if (on_hand && std::find(on_hand->begin(), on_hand->end(), m->id) == on_hand->end())
            keys.fault("search-not-on-hand", place,
                       "'" + m->id + "' is not on hand: put it into on_hand, or choose from " + base::joined(*on_hand));
        else if (std::find(out.begin(), out.end(), m->id) == out.end())
            out.push_back(m->id);
    }
    return out;
}

bool flag(const Keys& keys, const std::string& key) { return keys.truth(key).value_or(false); }

DyeChoices read_dye(const Keys& keys, const Take& take, const std::vector<std::string>* on_hand) {
    keys.only({"use", "at_once", "most_parts", "water", "wet_g_per_m2", "always"});
    DyeChoices out;
    out.use = named(keys, "use", {take, on_hand, {material::Kind::stock}}, "ready dye");
    if (out.use.size() > search::most_stocks)
        keys.fault("search-large", keys.place_of("use"),
                   "no more than " + std::to_string(search::most_stocks) + " dyes can be searched at a time");
    out.at_once = keys.integer("at_once", 1, static_cast<int>(search::most_stocks)).value_or(2);
    out.most_parts = keys.integer("most_parts", 1, 100).value_or(4);
    out.water = whole_values(keys, "water", {0, 1000, "parts"});
    if (!keys.has("water"))
        keys.fault("key-missing", keys.here(),
                   "how far is the dye thinned? water = [9, 14, 19] gives parts of water to one part of dye");
    out.wet_g_per_m2 = keys.number("wet_g_per_m2", 1, 500, "g/m2").value_or(70);
    out.always = flag(keys, "always");
    return out;
}

CoatChoices read_coats(const Keys& keys, const Shelf& shelf, const std::string& role, bool may_be_left_out) {
    std::vector<std::string> allowed = {"use", "cut_lb", "coats", "method", "sheen_gu60", "tint", "tint_percent"};
    if (role == "stain" || role == "glaze") allowed.emplace_back("remainder");
    if (role == "toner") allowed.insert(allowed.end(), {"passes", "toner_strength"});
    if (may_be_left_out) allowed.emplace_back("always");
    keys.only(allowed);
    CoatChoices out;
    out.use = named(keys, "use", shelf, role);
    out.remainder = values(keys, "remainder", {0, 1, ""});
    out.passes = values(keys, "passes", {0.25, 20, "passes"});
    out.toner_strength = values(keys, "toner_strength", {0.05, 5, ""});
    out.cut_lb = values(keys, "cut_lb", {0.1, 6, "lb/gal"});
    if (keys.has("coats")) out.coats = whole_values(keys, "coats", {1, 30, "coats"});
    const std::vector<std::string> methods(material::method_words.begin(), material::method_words.end());
    if (const auto method = keys.choice("method", methods))
        out.method =
            static_cast<material::Method>(std::find(methods.begin(), methods.end(), *method) - methods.begin());
    out.sheen_gu60 = values(keys, "sheen_gu60", {0, 100, "gloss units"});
    if (keys.has("tint"))
        out.tint = named(keys, "tint", {shelf.take, shelf.on_hand, {material::Kind::dye}}, "powder dye");
    out.tint_percent = values(keys, "tint_percent", {1e-4, 20, "%"});
    if (keys.has("tint") != keys.has("tint_percent"))
        keys.fault("key-missing", keys.here(),
                   keys.has("tint") ? "tint needs tint_percent: how much of the powder by weight"
                                    : "tint_percent needs tint = [\"...\"]");
    if (may_be_left_out) out.always = flag(keys, "always");
    return out;
}

int hex_digit(char c) {
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
}

}  // namespace

SearchTable read_search_table(const Keys& keys, const Take& take) {
    keys.only({"most_steps", "most_uneven", "on_hand", "dye", "stain", "oil", "sealer", "glaze", "toner", "topcoat"});
    SearchTable out;
    out.place = keys.here();
    out.choices.most_steps = keys.integer("most_steps", 1, search::longest_recipe).value_or(4);
    out.most_uneven = keys.number("most_uneven", 0.1, 50, "dE00");
    const auto room = [&](const char* key, Place& place) -> std::optional<Keys> {
        const auto* table = keys.sub(key);
        if (!table) return std::nullopt;
        Keys sub(*table, keys.file(), std::string("[search.") + key + "]", keys.problems());
        place = sub.here();
        return sub;
    };
    if (const auto list = keys.texts("on_hand")) out.on_hand = *list;
    const auto* on_hand = keys.has("on_hand") ? &out.on_hand : nullptr;
    if (const auto k = room("dye", out.dye)) out.choices.dye = read_dye(*k, take, on_hand);
    const auto coats = [&](search::Room r, std::optional<CoatChoices>& choices, std::vector<material::Kind> kinds) {
        if (const auto k = room(search::room_words[r], out.rooms[r]))
            choices = read_coats(*k, {take, on_hand, kinds}, search::room_words[r], r != search::topcoat_room);
    };
    using material::Kind;
    coats(search::stain_room, out.choices.stain, {Kind::stain, Kind::gel_stain});
    coats(search::oil_room, out.choices.oil, {Kind::oil});
    coats(search::sealer_room, out.choices.sealer, {Kind::film});
    coats(search::glaze_room, out.choices.glaze, {Kind::glaze, Kind::gel_stain});
    coats(search::toner_room, out.choices.toner, {Kind::toner});
    coats(search::topcoat_room, out.choices.topcoat, {Kind::film, Kind::oil, Kind::wax});
    if (!keys.has("topcoat"))
        keys.fault("search-topcoat", keys.here(),
                   "a search needs [search.topcoat] with use = [\"...\"]: no finish is done without one");
    return out;
}

void read_srgb(const Keys& target, Target& out) {
    const auto text = target.text("srgb");
    if (!text) return;
    std::array<double, 3> rgb{};
    bool good = text->size() == 7 && text->front() == '#';
    for (std::size_t i = 0; good && i < 3; ++i) {
        const int high = hex_digit((*text)[1 + 2 * i]), low = hex_digit((*text)[2 + 2 * i]);
        good = high >= 0 && low >= 0;
        rgb[i] = (16 * high + low) / 255.0;
    }
    if (!good) {
        target.fault("value-srgb", target.place_of(*target.table().get("srgb")),
                     "srgb = \"" + text->substr(0, 20) + "\" is no color; write six hex digits: \"#b5651d\"");
        return;
    }
    out.srgb = *text;
    out.lab = color::to_lab(color::srgb_to_xyz(rgb), color::srgb_white);
    out.light = "D65";
    out.observer = "2deg";
}

}  // namespace foretone::scene
