// A scene as the page draws it: finishes from the wood up, each layer with its tint and with what can be turned on it.
#include <array>
#include <cmath>

#include "foretone/color/srgb.hpp"
#include "foretone/report/json.hpp"
#include "foretone/report/recipe.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/pot.hpp"
#include "session.hpp"

namespace foretone::page {
namespace {
using material::Binder;

constexpr std::array<const char*, 10> amount_keys = {
    "parts", "parts_weight", "percent_volume", "percent_weight", "rest", "ml", "g", "drops", "g_per_l", "oz_per_qt"};
static_assert(static_cast<std::size_t>(schedule::Amount::oz_per_qt) == 9);

const Binder* binder_of(const schedule::Step& step, const material::Materials& materials) {
    for (const auto& part : step.mix)
        if (const auto it = materials.find(part.use); it != materials.end())
            if (const auto* b = std::get_if<Binder>(&it->second.data)) return b;
    return nullptr;
}

// White paper seen through all coats of the step: light passes the color twice.
spectral::Spectrum over_white(const schedule::Deposit& d, int coats) {
    spectral::Spectrum r{};
    for (std::size_t i = 0; i < r.values.size(); ++i) {
        const double depth = d.dye_absorbance.values[i] + d.pigment_absorbance.values[i] +
                             d.binder_absorption_per_mm.values[i] * d.binder_um * 1e-3;
        r.values[i] = std::exp(-2 * depth * coats);
    }
    return r;
}

Json step_model(const schedule::Step& step, const material::Materials& materials, const color::Weights& light) {
    Json j;
    j["parts"] = Json::array();
    for (const auto& part : step.mix) {
        const auto it = materials.find(part.use);
        Json p = {{"use", part.use}, {"amount", amount_key(part.amount)}, {"value", part.value}};
        p["name"] = it == materials.end() ? part.use : it->second.name;
        p["kind"] = it == materials.end() ? "" : std::string(word(it->second.kind));
        j["parts"].push_back(std::move(p));
    }
    j["coats"] = step.coats;
    j["method"] = material::method_words[static_cast<std::size_t>(schedule::method_of(step, materials))];
    if (const auto* b = binder_of(step, materials)) {
        if (b->cut_lb || b->resin_density_g_per_ml)
            j["cut_lb"] = {{"value", step.cut_lb ? *step.cut_lb
                                     : b->cut_lb ? b->cut_lb->value
                                                 : 2},
                           {"said", step.cut_lb.has_value()}};
        j["sheen_gu60"] = {{"value", step.sheen_gu60.value_or(b->sheen_gu60.value)},
                           {"said", step.sheen_gu60.has_value()},
                           {"word", report::sheen_text(step.sheen_gu60.value_or(b->sheen_gu60.value))}};
        j["kind"] = "binder";
    }
    if (step.wet_g_per_m2) j["wet_g_per_m2"] = *step.wet_g_per_m2;
    if (step.after_days) j["after_days"] = *step.after_days;
    if (step.scuff) j["scuff"] = true;
    try {
        const auto d = schedule::deposit(step, materials);
        j["soaks"] = d.soaks();
        j["wet_um"] = d.wet_um;
        j["tint"] = color::to_display(color::xyz(over_white(d, step.coats), light), light.white).hex();
    } catch (const schedule::Fault& fault) {
        j["fault"] = fault.what();
    }
    return j;
}

}  // namespace

const char* amount_key(schedule::Amount amount) { return amount_keys[static_cast<std::size_t>(amount)]; }

Json finish_model(const schedule::Finish& finish, const material::Materials& materials, const color::Weights& light) {
    Json j = {{"name", finish.name}, {"wet_place", finish.wet_place}, {"steps", Json::array()}};
    for (const auto& step : finish.steps) j["steps"].push_back(step_model(step, materials, light));
    // Gloss is the topmost film's.
    for (std::size_t i = j["steps"].size(); i-- > 0;)
        if (!j["steps"][i].value("soaks", true)) {
            j["steps"][i]["top"] = true;
            break;
        }
    return j;
}

Json scene_json(const scene::Scene& s) {
    Json j;
    j["title"] = s.title;
    j["notes"] = s.notes;
    const auto& wood = s.materials.at(s.wood);
    j["wood"] = {{"id", s.wood}, {"name", wood.name}};
    j["look"] = {
        {"lights", s.look.lights}, {"observer", s.look.observer}, {"geometry", scene::geometry_text(s.look.geometry)}};
    j["target"] = nullptr;
    if (s.target) {
        const auto& t = *s.target;
        j["target"] = {{"finish", t.finish}, {"srgb", t.srgb}, {"file", t.file}};
        if (t.lab) j["target"]["lab"] = {t.lab->l, t.lab->a, t.lab->b};
        j["target"]["light"] = t.light;
        j["target"]["observer"] = t.observer;
        j["target"]["same_board"] = t.same_board;
    }
    return j;
}

}  // namespace foretone::page
