#include "layers.hpp"

#include <algorithm>

#include "foretone/schedule/pot.hpp"

namespace foretone::schedule {
namespace {
using material::Material;
using material::Shelf;

const Material* find(const Shelf& shelf, const std::string& id) {
    const auto it = shelf.find(id);
    return it == shelf.end() ? nullptr : &it->second;
}

void add_dye(Layer& l, const Shelf& shelf, const std::string& id) {
    const auto* m = find(shelf, id);
    if (!m) return;
    l.colored = true;
    if (const auto* dye = std::get_if<material::Dye>(&m->data))
        l.lifted_by.insert(dye->carriers.begin(), dye->carriers.end());
}

void add_part(Layer& l, const Shelf& shelf, const Part& part) {
    const Material& m = shelf.at(part.use);
    if (std::holds_alternative<material::Liquid>(m.data)) l.carriers.insert(m.id);
    if (facts(m.kind).powder) add_dye(l, shelf, m.id);
    if (const auto* stock = std::get_if<material::Stock>(&m.data)) {
        l.carriers.insert(stock->carrier);
        for (const auto& load : stock->mix) add_dye(l, shelf, load.use);
        l.lifted_by.insert(stock->carrier);
    }
    if (const auto* b = std::get_if<material::Binder>(&m.data))
        if (!b->carrier.empty()) l.carriers.insert(b->carrier);
}

}  // namespace

Layer layer_of(const Step& step, const Shelf& shelf) {
    const Mixture m = mix(step, shelf);
    Layer l;
    for (const auto& part : step.mix) {
        add_part(l, shelf, part);
        const auto& name = shelf.at(part.use).name;
        if (!facts(shelf.at(part.use).kind).bare_liquid || step.mix.size() == 1)
            l.name += (l.name.empty() ? "" : " + ") + name;
    }
    const Mixture::Binder* most = nullptr;
    for (const auto& b : m.binders)
        if (!most || b.dry_share > most->dry_share) most = &b;
    l.method = method_of(step, shelf);
    if (!most) {
        // The liquid sets the wait of a dye; a pigment without binder is only rubbed in.
        if (const auto* carrier = find(shelf, m.carrier); carrier && carrier->order.recoat_early_h)
            l.early_h = carrier->order.recoat_early_h->value;
        return l;
    }
    // What binds holds the color in: the layer lifts when its binder does.
    l.binder = &shelf.at(most->id);
    l.lifted_by.clear();
    const auto& order = l.binder->order;
    if (order.redissolved_by) {
        l.lifted_by.insert(order.redissolved_by->value.begin(), order.redissolved_by->value.end());
        l.lifted_sure = order.redissolved_by->sure;
    }
    if (order.recoat_early_h) l.early_h = order.recoat_early_h->value;
    if (order.recoat_late_h) l.late_h = order.recoat_late_h->value;
    return l;
}

}  // namespace foretone::schedule
