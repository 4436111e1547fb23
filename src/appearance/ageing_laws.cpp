// Laws of age with their spreads. A figure v ± s that is an amount or a dose is moved as ln v ± s/v: half or twice as
// much is what such figures are sure to.

#include "foretone/appearance/ageing_laws.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::appearance {
namespace {
using material::Figure;
using material::FilmAgeing;
using material::WoodAgeing;

void move_ln(Figure& f, double sigmas) {
    if (f.value > 0) f.value *= std::exp(sigmas * f.sd / f.value);
}

void move_share(Figure& f, double sigmas, double high = 1) { f.value = std::clamp(f.value + sigmas * f.sd, 0.0, high); }

void add_wood(const AgeingLaws& laws, const std::string& name, std::vector<AgeingCoordinate>& out) {
    const auto add = [&](const char* key, const char* what, auto move) {
        out.push_back({std::string("ageing/wood/") + key, "how " + name + " ages: " + what, false,
                       [move](AgeingLaws& l, double z) { move(l.wood, z); }});
    };
    const auto& w = laws.wood;
    if (w.brown.sd > 0)
        add("brown", "how far", [](WoodAgeing& a, double z) { move_ln(a.brown, z), move_ln(a.yellow, z); });
    if (w.yellow.sd > 0) add("yellow", "how yellow", [](WoodAgeing& a, double z) { move_ln(a.yellow, 0.7 * z); });
    if (w.fast_wh.sd > 0)
        add("fast", "how soon", [](WoodAgeing& a, double z) { move_ln(a.fast_wh, z), move_ln(a.slow_wh, z); });
    if (w.bleached.sd > 0)
        add("bleached", "how pale", [](WoodAgeing& a, double z) { move_share(a.bleached, z, 0.95); });
    if (w.bleach_wh.sd > 0) add("bleach", "how soon paler", [](WoodAgeing& a, double z) { move_ln(a.bleach_wh, z); });
    if (w.dark_yellow.sd > 0) add("dark", "in the dark", [](WoodAgeing& a, double z) { move_ln(a.dark_yellow, z); });
}

void add_film(const std::string& kind, std::vector<AgeingCoordinate>& out) {
    const auto add = [&](const char* key, const char* what, auto move) {
        out.push_back({"ageing/" + kind + "/" + key, "how " + kind + " ages: " + what, false,
                       [kind, move](AgeingLaws& l, double z) { move(l.films.find(kind)->second, z); }});
    };
    add("dark", "how yellow in the dark", [](FilmAgeing& a, double z) { move_ln(a.dark_per_mm, z); });
    add("bleach", "how soon light bleaches it", [](FilmAgeing& a, double z) { move_ln(a.bleach_wh, z); });
    add("light", "how yellow in light", [](FilmAgeing& a, double z) { move_ln(a.light_per_mm, z); });
    add("own", "how pale in light", [](FilmAgeing& a, double z) { move_share(a.own_bleached, z); });
    add("uv", "what it shelters", [](FilmAgeing& a, double z) { move_share(a.uv_absorbed, z, 0.99); });
}

Figure lightfastness_of(const material::Dye& dye) {
    return dye.lightfastness ? *dye.lightfastness : material::usual_lightfastness();
}

}  // namespace

const FilmAgeing& AgeingLaws::film(const material::Material& binder) const {
    const auto it = films.find(material::ageing_of(binder).word);
    return it == films.end() ? material::ageing_of(binder) : it->second;
}

double AgeingLaws::uv_absorbed(const material::Material& binder) const {
    const auto& own = std::get<material::Binder>(binder.data).uv_absorbed;
    return own ? own->value : film(binder).uv_absorbed.value;
}

AgeingLaws ageing_laws(const material::Materials& materials, const std::string& wood) {
    AgeingLaws out;
    out.wood = material::ageing_of(std::get<material::Wood>(materials.at(wood).data));
    for (const auto& [id, m] : materials) {
        if (const auto* dye = std::get_if<material::Dye>(&m.data))
            out.lightfastness.emplace(id, lightfastness_of(*dye).value);
        if (!is_binder(m)) continue;
        const auto& law = material::ageing_of(m);
        out.films.emplace(law.word, law);
    }
    return out;
}

std::vector<AgeingCoordinate> ageing_coordinates(const AgeingLaws& laws, const material::Materials& materials,
                                                 std::span<const material::AgeSpan> places) {
    std::vector<AgeingCoordinate> out;
    double sd = 0;
    for (const auto& p : places)
        if (p.days > 0) sd = std::max(sd, material::exposure(p.stands).dose_ln_sd);
    if (sd > 0)
        out.push_back({"ageing/light", "how much light the place gets", true,
                       [sd](AgeingLaws& l, double z) { l.light = std::exp(sd * z); }});
    add_wood(laws, "the wood", out);
    for (const auto& [kind, law] : laws.films) add_film(kind, out);
    for (const auto& [id, value] : laws.lightfastness) {
        const double spread = lightfastness_of(std::get<material::Dye>(materials.at(id).data)).sd;
        if (spread > 0)
            out.push_back({"ageing/" + id, id + " lightfastness", false, [id = id, spread](AgeingLaws& l, double z) {
                               double& v = l.lightfastness.find(id)->second;
                               v = std::clamp(v + spread * z, 1.0, 8.0);
                           }});
    }
    return out;
}

material::Mark weakest(const AgeingLaws& laws, const material::Materials& materials) {
    material::Mark mark = laws.wood.brown.from.mark;
    for (const Figure* f : {&laws.wood.yellow, &laws.wood.bleached, &laws.wood.fast_wh, &laws.wood.dark_yellow})
        mark = material::weaker(mark, f->from.mark);
    for (const auto& [kind, law] : laws.films) mark = material::weaker(mark, law.dark_per_mm.from.mark);
    for (const auto& [id, value] : laws.lightfastness)
        mark = material::weaker(mark, lightfastness_of(std::get<material::Dye>(materials.at(id).data)).from.mark);
    return mark;
}

}  // namespace foretone::appearance
