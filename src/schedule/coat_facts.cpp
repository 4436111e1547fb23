#include "coat_facts.hpp"

#include <algorithm>

#include "foretone/schedule/pot.hpp"
#include "ready.hpp"

namespace foretone::schedule {
namespace {
using material::Material;
using material::Materials;

const Material* find(const Materials& materials, const std::string& id) {
    const auto it = materials.find(id);
    return it == materials.end() ? nullptr : &it->second;
}

void add_dye(CoatFacts& l, const Materials& materials, const std::string& id) {
    const auto* m = find(materials, id);
    if (!m) return;
    l.colored = true;
    if (const auto* dye = std::get_if<material::Dye>(&m->data))
        l.lifted_by.insert(dye->carriers.begin(), dye->carriers.end());
}

void add_part(CoatFacts& l, const Materials& materials, const Part& part) {
    const Material& m = materials.at(part.use);
    if (std::holds_alternative<material::Liquid>(m.data)) l.carriers.insert(m.id);
    if (facts(m.kind).powder) add_dye(l, materials, m.id);
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        l.carriers.insert(stock->carrier);
        for (const auto& load : stock->mix) add_dye(l, materials, load.use);
        l.lifted_by.insert(stock->carrier);
    }
    if (const auto* c = std::get_if<material::Colored>(&m.data)) {
        l.colored = true;
        l.carriers.insert(c->carrier);
    }
    if (const auto* t = std::get_if<material::Treatment>(&m.data); t && !t->carrier.empty())
        l.carriers.insert(t->carrier);
    if (const auto* b = std::get_if<material::Binder>(&m.data))
        if (!b->carrier.empty()) l.carriers.insert(b->carrier);
}

}  // namespace

CoatFacts coat_facts(const Step& step, const Materials& materials) {
    const Mixture m = mix(step, materials);
    CoatFacts l;
    for (const auto& part : step.mix) {
        add_part(l, materials, part);
        const auto& name = materials.at(part.use).name;
        if (!facts(materials.at(part.use).kind).bare_liquid || step.mix.size() == 1)
            l.name += (l.name.empty() ? "" : " + ") + name;
    }
    const Mixture::Binder* most = nullptr;
    for (const auto& b : m.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    l.method = method_of(step, materials);
    l.ready = ready_of(step, materials);
    if (!most) {
        // The liquid sets the wait of a dye; a pigment without binder is only rubbed in.
        if (const auto* carrier = find(materials, m.carrier); carrier && carrier->order.recoat_early_h)
            l.early_h = carrier->order.recoat_early_h->value;
        if (l.ready && l.ready->order.recoat_early_h) l.early_h = l.ready->order.recoat_early_h->value;
        return l;
    }
    // What binds holds the color in: the layer lifts when its binder does.
    l.binder = &materials.at(most->id);
    l.lifted_by.clear();
    const auto& order = *l.order();
    if (order.redissolved_by) {
        l.lifted_by.insert(order.redissolved_by->value.begin(), order.redissolved_by->value.end());
        l.lifted_sure = order.redissolved_by->sure;
    }
    if (order.recoat_early_h) l.early_h = order.recoat_early_h->value;
    if (order.recoat_late_h) l.late_h = order.recoat_late_h->value;
    return l;
}

}  // namespace foretone::schedule
