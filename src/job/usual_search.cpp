#include "foretone/job/usual_search.hpp"

#include <algorithm>

#include "foretone/scene/problem.hpp"

namespace foretone::job {
namespace {
using scene::Written;
using scene::WrittenTable;

constexpr double most_search_steps = 4, dyes_at_once = 2, dye_parts = 4, dye_wet_g_per_m2 = 70;

struct AtHand {
    std::vector<Written> dyes, stains, oils, cuts, films, glazes, toners;  // ids
};

AtHand at_hand(const scene::Library& library, const std::vector<std::string>& use, const material::Materials& own) {
    AtHand out;
    for (const auto& id : use) {
        const auto brought = own.find(id);
        const auto m = brought != own.end() ? brought->second : library.material(id);
        if (m.kind == material::Kind::stock) out.dyes.push_back({id});
        if (m.kind == material::Kind::stain || m.kind == material::Kind::gel_stain) out.stains.push_back({id});
        if (m.kind == material::Kind::oil) out.oils.push_back({id});
        if (m.kind == material::Kind::glaze) out.glazes.push_back({id});
        if (m.kind == material::Kind::toner) out.toners.push_back({id});
        if (m.kind != material::Kind::film) continue;
        const auto& binder = std::get<material::Binder>(m.data);
        (binder.cut_lb || binder.resin_density_g_per_ml ? out.cuts : out.films).push_back({id});
    }
    return out;
}

Written range(double from, double to) { return {WrittenTable{{"from", {from}}, {"to", {to}}}}; }

Written cuts_lb() { return {std::vector<Written>{{1.0}, {2.0}}}; }

Written dye_keys(const std::vector<Written>& ids) {
    const double at_once = std::min(dyes_at_once, static_cast<double>(ids.size()));
    return {WrittenTable{{"use", {ids}},
                         {"at_once", {at_once}},
                         {"most_parts", {dye_parts}},
                         {"water", {WrittenTable{{"from", {10.0}}, {"to", {100.0}}, {"step", {10.0}}}}},
                         {"wet_g_per_m2", {dye_wet_g_per_m2}}}};
}

}  // namespace

scene::WrittenTable usual_search(const scene::Library& library, const std::vector<std::string>& use,
                                 const material::Materials& own) {
    const auto have = at_hand(library, use, own);
    if (have.films.empty() && have.cuts.empty())
        throw scene::InputError("search-topcoat", {"search"}, "choose at least one topcoat");
    WrittenTable keys = {{"most_steps", {most_search_steps}}};
    if (!have.dyes.empty()) keys.emplace_back("dye", dye_keys(have.dyes));
    for (const auto& [room, ids] : {std::pair{"stain", have.stains}, {"oil", have.oils}, {"glaze", have.glazes}})
        if (!ids.empty()) keys.emplace_back(room, Written{WrittenTable{{"use", {ids}}}});
    if (!have.toners.empty())
        keys.emplace_back("toner", Written{WrittenTable{{"use", {have.toners}}, {"passes", range(1, 2)}}});
    if (have.films.empty()) {
        keys.emplace_back("topcoat",
                          Written{WrittenTable{{"use", {have.cuts}}, {"cut_lb", cuts_lb()}, {"coats", range(1, 4)}}});
        return keys;
    }
    if (!have.cuts.empty())
        keys.emplace_back("sealer", Written{WrittenTable{{"use", {have.cuts}},
                                                         {"cut_lb", cuts_lb()},
                                                         {"coats", range(1, 3)},
                                                         {"method", {std::string("spray")}}}});
    keys.emplace_back("topcoat", Written{WrittenTable{{"use", {have.films}}, {"coats", {2.0}}}});
    return keys;
}

}  // namespace foretone::job
