// What a material names: a stock its dyes and its carrier, a binder its carrier, a ready colored coat its powders, its
// binder and its carrier, a dye what dissolves it, and any of them what softens it again.

#include "foretone/material/references.hpp"

namespace foretone::material {
namespace {

struct ReferenceList {
    std::vector<Reference> out;
    void operator()(const std::string& id, Kind due, bool part, std::vector<Kind> or_else = {}) {
        if (!id.empty()) out.push_back({id, due, part, std::move(or_else)});
    }
};

template <class T>
void visit(const T&, ReferenceList&) {}

void visit(const Dye& m, ReferenceList& at) {
    for (const auto& id : m.carriers) at(id, Kind::liquid, false);
}

void visit(const Stock& m, ReferenceList& at) {
    at(m.carrier, Kind::liquid, true);
    for (const auto& load : m.mix) at(load.use, Kind::dye, true);
}

void visit(const Binder& m, ReferenceList& at) { at(m.carrier, Kind::liquid, true); }

void visit(const Colored& m, ReferenceList& at) {
    at(m.carrier, Kind::liquid, true);
    at(m.binder, Kind::film, true, {Kind::oil, Kind::wax});
    for (const auto& load : m.mix) at(load.use, Kind::pigment, true, {Kind::dye});
}

void visit(const Treatment& m, ReferenceList& at) { at(m.carrier, Kind::liquid, true); }

}  // namespace

std::vector<Reference> references(const Material& m) {
    ReferenceList at;
    std::visit([&](const auto& data) { visit(data, at); }, m.data);
    if (m.order.redissolved_by)
        for (const auto& id : m.order.redissolved_by->value) at(id, Kind::liquid, false);
    return std::move(at.out);
}

std::vector<std::string> parts(const Material& m) {
    std::vector<std::string> out;
    for (auto& r : references(m))
        if (r.part) out.push_back(std::move(r.id));
    return out;
}

void add_with_parts(const Materials& from, const std::string& id, std::set<std::string>& to) {
    const auto it = from.find(id);
    if (it == from.end() || !to.insert(id).second) return;
    for (const auto& part : parts(it->second)) add_with_parts(from, part, to);
}

Materials with_parts(const Materials& from, const std::set<std::string>& ids) {
    std::set<std::string> all;
    for (const auto& id : ids) add_with_parts(from, id, all);
    Materials out;
    for (const auto& id : all) out.emplace(id, from.at(id));
    return out;
}

}  // namespace foretone::material
