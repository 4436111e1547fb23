#include "order_facts.hpp"

#include "foretone/base/number.hpp"
#include "foretone/schedule/measure.hpp"
#include "terminal.hpp"

namespace foretone::cli {
namespace {
using Json = nlohmann::ordered_json;
using material::Order;

struct Named {
    const char* key;
    const std::optional<material::YesNo>& fact;
};

struct Wait {
    const char* key;
    const char* unit;
    const std::optional<material::Figure>& figure;
};

std::vector<Named> facts(const Order& o) {
    return {{"holds_wax", o.holds_wax},
            {"hot_solvent", o.hot_solvent},
            {"wrinkles", o.wrinkles},
            {"needs_scuff", o.needs_scuff},
            {"ties", o.ties},
            {"suits_wet_places", o.suits_wet_places},
            {"two_component", o.two_component}};
}

std::vector<Wait> waits(const Order& o) {
    return {{"recoat_early_h", "h", o.recoat_early_h},
            {"recoat_late_h", "h", o.recoat_late_h},
            {"cure_days", "d", o.cure_days}};
}

}  // namespace

Json order_json(const Order& o) {
    Json list = Json::array();
    const auto put = [&](const std::string& key, Json value, std::string_view mark, const std::string& source) {
        list.push_back({{"key", key}, {"value", std::move(value)}, {"mark", mark}, {"source", source}});
    };
    if (o.redissolved_by)
        put("redissolved_by", o.redissolved_by->value, material::word(o.redissolved_by->sure),
            o.redissolved_by->source);
    for (const auto& [below, fact] : o.sticks_not_to)
        put("sticks_not_to." + below, fact.value, material::word(fact.sure), fact.source);
    for (const auto& f : facts(o))
        if (f.fact) put(f.key, f.fact->value, material::word(f.fact->sure), f.fact->source);
    for (const auto& w : waits(o)) {
        if (!w.figure) continue;
        put(w.key, w.figure->value, material::word(w.figure->from.mark), w.figure->from.source);
        list.back()["unit"] = w.unit;
        list.back()["sd"] = w.figure->sd;
    }
    if (!o.cautions.empty()) list.push_back({{"key", "cautions"}, {"value", o.cautions}});
    return list;
}

std::string order_text(const Order& o) {
    std::string out;
    for (const auto& fact : order_json(o)) {
        const auto& value = fact.at("value");
        std::string said;
        if (value.is_array()) {
            for (const auto& word : value) said += (said.empty() ? "" : ", ") + word.get<std::string>();
            if (said.empty()) said = "nothing";
        } else if (value.is_boolean()) {
            said = value.get<bool>() ? "yes" : "no";
        } else {
            said = base::shortest(value.get<double>()) + " " + fact.at("unit").get<std::string>() + "   ± " +
                   base::shortest(fact.at("sd").get<double>());
        }
        out += "  " + left(fact.at("key").get<std::string>(), 30) + " " + said + "\n";
        if (fact.contains("mark"))
            out += "  " + left("", 30) + " " + fact.at("mark").get<std::string>() + ": " +
                   fact.at("source").get<std::string>() + "\n";
    }
    return out.empty() ? "" : "\norder, waits and dangers\n" + out;
}

}  // namespace foretone::cli
