// The library as a list to choose from, with the step each material makes at first.
#include "session.hpp"

namespace foretone::page {
namespace {

/// The usual first try with a material (common practice): a step as a scene writes it.
Json first_step(const material::Material& m) {
    const auto first = facts(m.kind).first_try;
    if (first == material::FirstTry::none) return nullptr;
    if (first == material::FirstTry::thinned) {
        const auto& stock = std::get<material::Stock>(m.data);
        return {{"mix", {{{"use", m.id}, {"parts", 1}}, {{"use", stock.carrier}, {"parts", 9}}}}, {"wet_g_per_m2", 70}};
    }
    const auto* b = std::get_if<material::Binder>(&m.data);
    Json step = {{"use", m.id}};
    if (b && (b->cut_lb || b->resin_density_g_per_ml)) step["cut_lb"] = 1.5;
    const bool brushed = first == material::FirstTry::brushed;
    step["coats"] = brushed && !step.contains("cut_lb") ? 2 : 1;
    step["method"] = brushed ? "brush" : first == material::FirstTry::sprayed ? "spray" : "wipe";
    return step;
}

}  // namespace

Json materials_json(const scene::Library& library) {
    Json j;
    for (const auto& row : material::kinds()) {
        if (!row.base && row.first_try == material::FirstTry::none) continue;
        auto& list = j[std::string(row.word)] = Json::array();
        for (const auto& id : library.ids(row.kind)) {
            const auto m = library.material(id);
            Json entry = {{"id", id}, {"name", m.name}};
            if (!row.base) entry["step"] = first_step(m);
            list.push_back(std::move(entry));
        }
    }
    j["light"] = library.lights();
    return j;
}

}  // namespace foretone::page
