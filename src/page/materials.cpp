// The library as a list to choose from, with the step each material makes at first.
#include "session.hpp"

namespace foretone::page {
namespace {

/// The usual first try with a material (common practice): a step as a scene writes it.
Json first_step(const material::Material& m) {
    if (m.kind == "stock") {
        const auto& stock = std::get<material::Stock>(m.data);
        return {{"mix", {{{"use", m.id}, {"parts", 1}}, {{"use", stock.carrier}, {"parts", 9}}}}, {"wet_g_per_m2", 70}};
    }
    const auto* b = std::get_if<material::Binder>(&m.data);
    if (!b) return nullptr;
    Json step = {{"use", m.id}};
    if (b->cut_lb || b->resin_density_g_per_ml) step["cut_lb"] = 1.5;
    step["coats"] = m.kind == "film" && !step.contains("cut_lb") ? 2 : 1;
    step["method"] = m.kind == "film" ? "brush" : "wipe";
    return step;
}

}  // namespace

Json materials_json(const scene::Library& library) {
    Json j;
    for (const auto kind : {"wood", "stock", "oil", "film", "wax"}) {
        j[kind] = Json::array();
        for (const auto& id : library.ids(kind)) {
            const auto m = library.material(id);
            Json entry = {{"id", id}, {"name", m.name}};
            if (std::string(kind) != "wood") entry["step"] = first_step(m);
            if (const auto* b = std::get_if<material::Binder>(&m.data))
                entry["cut"] = b->cut_lb || b->resin_density_g_per_ml;
            j[kind].push_back(std::move(entry));
        }
    }
    j["light"] = library.ids("illuminant");
    return j;
}

}  // namespace foretone::page
