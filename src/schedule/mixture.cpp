#include "foretone/schedule/mixture.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "foretone/base/number.hpp"
#include "foretone/base/text.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/units.hpp"

namespace foretone::schedule {
namespace {
using material::Material;
using material::Materials;

// The families of units that can be added up without knowing anything else. Loads (g/L, oz/qt) go with any of them.
enum class Family { parts, weight_parts, percent, absolute, load };

Family family(Amount a) {
    switch (a) {
        case Amount::parts:
            return Family::parts;
        case Amount::parts_weight:
            return Family::weight_parts;
        case Amount::percent_volume:
        case Amount::percent_weight:
        case Amount::rest:
            return Family::percent;
        case Amount::ml:
        case Amount::g:
        case Amount::drops:
            return Family::absolute;
        case Amount::g_per_l:
        case Amount::oz_per_qt:
            return Family::load;
    }
    return Family::parts;
}

// What one mL of a liquid part holds.
struct Held {
    double density = 1;
    std::vector<Mixture::Powder> powders;
    std::string binder;
    double dry_share = 0, dry_density = 1;
    std::map<std::string, double> carriers;  // volume share by liquid
};

const Material& get(const Materials& materials, const std::string& id, int part) {
    const auto it = materials.find(id);
    if (it == materials.end()) throw Fault("material-unknown", part, "no material '" + id + "'");
    return it->second;
}

bool is_powder(const Material& m) { return facts(m.kind).powder; }

double powder_density(const Material& m) {
    if (const auto* d = std::get_if<material::Dye>(&m.data)) return d->density_g_per_cm3.value;
    return std::get<material::Pigment>(m.data).density_g_per_cm3.value;
}

double liquid_density(const Materials& materials, const std::string& id, int part) {
    const auto* liquid = std::get_if<material::Liquid>(&get(materials, id, part).data);
    if (!liquid) throw Fault("mix-carrier", part, "'" + id + "' is named as a carrier but is no liquid");
    return liquid->density_g_per_ml.value;
}

Held held_by_binder(const Material& m, const Step& step, const Materials& materials, int part,
                    std::vector<std::string>& notes) {
    const auto& b = std::get<material::Binder>(m.data);
    Held h;
    h.binder = m.id;
    if (b.resin_density_g_per_ml) {
        double cut = b.cut_lb ? b.cut_lb->value : 2.0;
        if (step.cut_lb)
            cut = *step.cut_lb;
        else
            notes.push_back("no cut given for " + m.name + ": a " + base::fixed(cut, 1) + "-lb cut is taken");
        const double resin = b.resin_density_g_per_ml->value;
        const double alcohol = liquid_density(materials, b.carrier, part);
        h.dry_share = material::cut_solids_volume(cut, resin);
        h.density = h.dry_share * resin + (1 - h.dry_share) * alcohol;
        h.dry_density = resin;
    } else {
        h.dry_share = b.solids_volume_percent ? b.solids_volume_percent->value / 100.0 : 1.0;
        h.density = b.density_g_per_ml ? b.density_g_per_ml->value : 1.0;
        const double thin = b.carrier.empty() || h.dry_share >= 1 ? 0 : liquid_density(materials, b.carrier, part);
        if (h.dry_share > 0) h.dry_density = std::max(0.0, h.density - (1 - h.dry_share) * thin) / h.dry_share;
    }
    if (!b.carrier.empty()) h.carriers[b.carrier] = 1 - h.dry_share;
    return h;
}

// A ready colored coat: its binder and its powders as they are in a litre of it, and the carrier that fills it up.
Held held_by_colored(const Material& m, const Step& step, const Materials& materials, int part) {
    const auto& c = std::get<material::Colored>(m.data);
    const auto& binder = get(materials, c.binder, part);
    if (!is_binder(binder))
        throw Fault("mix-binder", part, "'" + c.binder + "' is named as the binder of '" + m.id + "' but is none");
    std::vector<std::string> unsaid;
    Held h;
    h.binder = c.binder;
    h.dry_share = c.binder_volume_percent.value / 100;
    h.dry_density = held_by_binder(binder, Step{}, materials, part, unsaid).dry_density;
    h.density = h.dry_share * h.dry_density;
    const double strength = c.strength.value * (m.kind == material::Kind::toner ? step.toner_strength.value_or(1) : 1);
    double rest = 1 - h.dry_share;
    for (const auto& load : c.mix) {
        const double g_per_l = load.g_per_l * strength;
        h.powders.push_back({load.use, g_per_l});
        h.density += g_per_l / 1000;
        rest -= g_per_l / 1000 / powder_density(get(materials, load.use, part));
    }
    if (rest < 0.02)
        throw Fault("mix-too-full", part,
                    "'" + m.id + "' holds more binder and powder than a litre has room for: " + c.carrier +
                        " must be at least 2 % of it");
    h.density += rest * liquid_density(materials, c.carrier, part);
    h.carriers[c.carrier] = rest;
    return h;
}

Held held_by(const Material& m, const Step& step, const Materials& materials, int part,
             std::vector<std::string>& notes) {
    Held h;
    if (const auto* liquid = std::get_if<material::Liquid>(&m.data)) {
        h.density = liquid->density_g_per_ml.value;
        h.carriers[m.id] = 1;
    } else if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        h.density = liquid_density(materials, stock->carrier, part);
        h.carriers[stock->carrier] = 1;
        for (const auto& load : stock->mix) {
            get(materials, load.use, part);
            h.powders.push_back({load.use, load.g_per_l * stock->strength.value});
            h.density += load.g_per_l / 1000.0;
        }
    } else if (std::holds_alternative<material::Binder>(m.data)) {
        h = held_by_binder(m, step, materials, part, notes);
    } else if (std::holds_alternative<material::Colored>(m.data)) {
        h = held_by_colored(m, step, materials, part);
    } else if (const auto* treatment = std::get_if<material::Treatment>(&m.data)) {
        if (step.mix.size() > 1)
            throw Fault("mix-treatment", part, "'" + m.id + "' changes the wood itself and is used alone, in no mix");
        if (treatment->carrier.empty()) return h;
        h.density = liquid_density(materials, treatment->carrier, part);
        h.carriers[treatment->carrier] = 1;
    } else {
        throw Fault("mix-not-a-finish", part,
                    "'" + m.id + "' is a " + std::string(word(m.kind)) + ": it cannot be put on as part of a step");
    }
    return h;
}

// Absolute millilitres (liquids) or grams (powders) of each part, up to a common scale, loads left at zero.
struct Quantities {
    std::vector<double> ml, g;
};

void check_families(const Step& step, const Materials& materials) {
    std::optional<Family> common;
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        const auto& part = step.mix[i];
        const int at = static_cast<int>(i);
        const auto& m = get(materials, part.use, at);
        const Family f = family(part.amount);
        if (f == Family::load) {
            if (!is_powder(m))
                throw Fault("mix-load", at,
                            "'" + part.use + "' is a liquid; g_per_l and oz_per_qt are for powders (dye, pigment)");
            continue;
        }
        if (is_powder(m) && (f == Family::parts || part.amount == Amount::percent_volume || part.amount == Amount::ml ||
                             part.amount == Amount::drops))
            throw Fault("mix-powder-by-volume", at,
                        "'" + part.use +
                            "' is a powder and is weighed: use g_per_l, oz_per_qt, g, parts_weight or percent_weight");
        if (common && *common != f)
            throw Fault("mix-units", at,
                        "the parts of one mix must be said in one way: parts; or parts_weight; or percent_volume / "
                        "percent_weight "
                        "with one rest = true; or ml, g and drops (g_per_l and oz_per_qt go with any)");
        common = f;
    }
}

}  // namespace

double Mixture::solids_share() const {
    double s = 0;
    for (const auto& b : binders) s += b.dry_share;
    return s;
}

namespace {

Quantities quantities(const Step& step, const std::vector<Held>& held, const std::vector<bool>& powder) {
    const std::size_t count = step.mix.size();
    Quantities q{std::vector<double>(count, 0.0), std::vector<double>(count, 0.0)};
    double percent = 0;
    std::optional<std::size_t> rest;
    bool by_weight = false, by_volume = false;
    for (std::size_t i = 0; i < count; ++i) {
        const auto& part = step.mix[i];
        switch (part.amount) {
            case Amount::percent_weight:
                by_weight = true;
                percent += part.value;
                break;
            case Amount::percent_volume:
                by_volume = true;
                percent += part.value;
                break;
            case Amount::rest:
                if (rest) throw Fault("mix-percent", static_cast<int>(i), "only one part of a mix can be the rest");
                rest = i;
                break;
            default:
                break;
        }
    }
    if (by_weight && by_volume)
        throw Fault("mix-percent", -1, "percent_weight and percent_volume cannot stand in one mix");
    if ((by_weight || by_volume) && !rest && std::abs(percent - 100) > 0.5)
        throw Fault("mix-percent", -1,
                    "the percentages add up to " + base::shortest(percent) + ", not 100, and no part is the rest");
    if (rest && !(percent < 100))
        throw Fault("mix-percent", static_cast<int>(*rest),
                    "nothing is left for the rest: the other parts make 100 % or more");
    for (std::size_t i = 0; i < count; ++i) {
        const auto& part = step.mix[i];
        const double value = part.amount == Amount::rest ? 100 - percent : part.value;
        const bool weighed = part.amount == Amount::g || part.amount == Amount::parts_weight ||
                             part.amount == Amount::percent_weight || (part.amount == Amount::rest && by_weight);
        if (family(part.amount) == Family::load) continue;
        if (powder[i])
            q.g[i] = value;
        else if (weighed)
            q.ml[i] = value / held[i].density;
        else
            q.ml[i] = part.amount == Amount::drops ? value * ml_per_drop : value;
    }
    return q;
}

}  // namespace

namespace {

// A mix worked out up to a common scale: millilitres of the liquid parts, grams of the powders, and what they come to
// together.
struct Worked {
    std::vector<Held> held;
    std::vector<bool> powder;
    Quantities q;
    double total_ml = 0, total_g = 0;
};

Worked work(const Step& step, const Materials& materials, std::vector<std::string>& notes) {
    if (step.mix.empty()) throw Fault("step-empty", -1, "a step needs a material: use = \"...\" or mix = [ ... ]");
    check_families(step, materials);
    Worked w;
    bool takes_cut = false;
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        const auto& m = get(materials, step.mix[i].use, static_cast<int>(i));
        w.powder.push_back(is_powder(m));
        w.held.push_back(w.powder.back() ? Held{} : held_by(m, step, materials, static_cast<int>(i), notes));
        const auto* b = std::get_if<material::Binder>(&m.data);
        takes_cut = takes_cut || (b && b->resin_density_g_per_ml);
    }
    if (step.toner_strength && std::none_of(step.mix.begin(), step.mix.end(), [&](const Part& p) {
            return materials.at(p.use).kind == material::Kind::toner;
        }))
        throw Fault("toner-strength", -1, "toner_strength is for a toner; there is none in this step");
    if (step.cut_lb && !takes_cut)
        throw Fault("cut-without-resin", -1,
                    "cut_lb is for a resin dissolved in alcohol (a shellac); there is none in this step");

    w.q = quantities(step, w.held, w.powder);
    double liquid_ml = 0;
    for (const double v : w.q.ml) liquid_ml += v;
    if (!(liquid_ml > 0))
        throw Fault("mix-dry", -1, "there is no liquid in this mix: powders need something to carry them");
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        if (step.mix[i].amount == Amount::g_per_l) w.q.g[i] = step.mix[i].value * liquid_ml / 1000;
        if (step.mix[i].amount == Amount::oz_per_qt)
            w.q.g[i] = g_per_l_from_oz_per_qt(step.mix[i].value) * liquid_ml / 1000;
    }
    w.total_ml = liquid_ml;
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        if (w.powder[i]) w.total_ml += w.q.g[i] / powder_density(materials.at(step.mix[i].use));
        w.total_g += w.powder[i] ? w.q.g[i] : w.q.ml[i] * w.held[i].density;
    }
    return w;
}

}  // namespace

std::vector<PartAmount> amounts(const Step& step, const Materials& materials, double total_ml) {
    if (!(std::isfinite(total_ml) && total_ml > 0))
        throw std::invalid_argument("amounts: " + base::shortest(total_ml) + " mL is no volume");
    std::vector<std::string> notes;
    const Worked w = work(step, materials, notes);
    const double scale = total_ml / w.total_ml;
    std::vector<PartAmount> out;
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        PartAmount a{step.mix[i].use, w.powder[i], 0, 0, std::nullopt};
        if (w.powder[i]) {
            a.g = w.q.g[i] * scale;
            a.ml = a.g / powder_density(materials.at(a.id));
        } else {
            a.ml = w.q.ml[i] * scale;
            a.g = a.ml * w.held[i].density;
            const auto* b = std::get_if<material::Binder>(&materials.at(a.id).data);
            if (b && b->resin_density_g_per_ml)
                a.cut_lb = step.cut_lb ? *step.cut_lb : b->cut_lb ? b->cut_lb->value : 2.0;
        }
        out.push_back(std::move(a));
    }
    return out;
}

namespace {

// What dissolves in one of `carriers`; in a neat oil, what dissolves in spirits.
bool dissolves_in(const material::Dye& dye, const std::map<std::string, double>& carriers) {
    const auto in = [&](const std::string& id) {
        return std::find(dye.carriers.begin(), dye.carriers.end(), id) != dye.carriers.end();
    };
    const auto some = [](const auto& c) { return c.second > 0.02; };
    if (std::none_of(carriers.begin(), carriers.end(), some)) return in("mineral-spirits");
    return std::any_of(carriers.begin(), carriers.end(), [&](const auto& c) { return some(c) && in(c.first); });
}

std::string carriers_text(const std::map<std::string, double>& carriers) {
    std::string out;
    for (const auto& [id, share] : carriers)
        if (share > 0.02) out += (out.empty() ? "" : " and ") + id;
    return out.empty() ? "oil" : out;
}

// A toner or a tinted film whose dye stays in grains is refused: they show as specks, and the color is lost.
void check_dissolved(const Step& step, const Materials& materials, const std::vector<Held>& held,
                     const std::map<std::string, double>& carriers) {
    const auto check = [&](const std::string& id, const std::map<std::string, double>& in, std::size_t part) {
        const auto* dye = std::get_if<material::Dye>(&get(materials, id, static_cast<int>(part)).data);
        if (!dye || dissolves_in(*dye, in)) return;
        std::string choices;
        for (const auto& [other, m] : materials)
            if (const auto* d = std::get_if<material::Dye>(&m.data); d && dissolves_in(*d, in))
                choices += (choices.empty() ? "" : ", ") + other;
        throw Fault("dye-undissolved", static_cast<int>(part),
                    materials.at(id).name + " does not dissolve in " + carriers_text(in) + "; by its file it does in " +
                        base::joined(dye->carriers, ", ", " and ") +
                        (choices.empty() ? "" : ". Those here that do: " + choices));
    };
    const bool binds = std::any_of(held.begin(), held.end(), [](const Held& h) { return !h.binder.empty(); });
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        const auto& m = materials.at(step.mix[i].use);
        if (const auto* c = std::get_if<material::Colored>(&m.data))
            for (const auto& load : c->mix) check(load.use, {{c->carrier, 1.0}}, i);
        if (binds && std::holds_alternative<material::Dye>(m.data)) check(m.id, carriers, i);
    }
}

}  // namespace

Mixture mix(const Step& step, const Materials& materials) {
    Mixture out;
    const Worked w = work(step, materials, out.notes);
    const auto& [held, powder, q, total_ml, total_g] = w;
    out.density_g_per_ml = total_g / total_ml;

    std::map<std::string, double> carriers;
    const auto add_powder = [&](const std::string& id, double g_per_l) {
        const auto it = std::find_if(out.powders.begin(), out.powders.end(), [&](const auto& p) { return p.id == id; });
        if (it == out.powders.end())
            out.powders.push_back({id, g_per_l});
        else
            it->g_per_l += g_per_l;
    };
    for (std::size_t i = 0; i < step.mix.size(); ++i) {
        if (powder[i]) {
            add_powder(step.mix[i].use, 1000 * q.g[i] / total_ml);
            continue;
        }
        const double share = q.ml[i] / total_ml;
        for (const auto& p : held[i].powders) add_powder(p.id, p.g_per_l * share);
        if (!held[i].binder.empty())
            out.binders.push_back({held[i].binder, held[i].dry_share * share, held[i].dry_density});
        for (const auto& [id, v] : held[i].carriers) carriers[id] += v * share;
    }
    check_dissolved(step, materials, held, carriers);
    double largest = 0;
    for (const auto& [id, v] : carriers)
        if (v > largest) {
            largest = v;
            out.carrier = id;
        }
    for (const auto& p : out.powders)
        if (const auto* dye = std::get_if<material::Dye>(&materials.at(p.id).data))
            if (!out.carrier.empty() &&
                std::find(dye->carriers.begin(), dye->carriers.end(), out.carrier) == dye->carriers.end())
                out.notes.push_back(materials.at(p.id).name + " does not dissolve in " + out.carrier + " by its file");
    return out;
}

}  // namespace foretone::schedule
