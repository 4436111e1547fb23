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

Json entry_of(const material::Material& m) {
    Json entry = {{"id", m.id}, {"name", m.name}};
    if (!facts(m.kind).base) entry["step"] = first_step(m);
    return entry;
}

}  // namespace

Json own_json(const scene::Scene& s, const scene::Library& library) {
    auto j = Json::object();
    for (const auto& [id, m] : s.materials)
        if (!library.find(id) && (facts(m.kind).base || facts(m.kind).first_try != material::FirstTry::none))
            j[std::string(word(m.kind))].push_back(entry_of(m));
    return j;
}

Json materials_json(const scene::Library& library) {
    Json j;
    for (const auto& row : material::kinds()) {
        // A powder dye makes no step by itself, but tints a coat that a match tries.
        if (!row.base && row.first_try == material::FirstTry::none && row.kind != material::Kind::dye) continue;
        auto& list = j[std::string(row.word)] = Json::array();
        for (const auto& id : library.ids(row.kind)) list.push_back(entry_of(library.material(id)));
    }
    j["light"] = library.lights();
    return j;
}

}  // namespace foretone::page
