// What two finishes differ by, taken apart: D(h) is how much finish h changes wood, h | f→t the same finish with its
// figure f as finish t has it.
//
//     part of f = D(h | f→t) − D(h),      spread² = Σ over f of both finishes of (D(h | f + σ_f) − D(h))²
//
// Each figure alone, at first order: a table to see what decides, not a sum.

#include "film_differences.hpp"

#include <algorithm>
#include <cmath>
#include <set>

#include "foretone/base/number.hpp"
#include "foretone/schedule/deposit.hpp"
#include "required.hpp"

namespace foretone::job {
namespace {
using color::Lab;
using material::Binder;
using material::Figure;
using optics::Geometry;

// A figure of a film by itself, or with what only means something beside it.
struct Part {
    const char* name;
    void (*take)(Binder& to, const Binder& from);
    std::vector<Figure*> (*figures)(Binder& of);  // those whose spread counts
    double side = 1;                              // which way one is moved: a share never beyond 1
};

std::vector<Figure*> stated(std::initializer_list<std::optional<Figure>*> all) {
    std::vector<Figure*> out;
    for (auto* f : all)
        if (*f) out.push_back(&**f);
    return out;
}

const Part all_parts[] = {
    {"index", [](Binder& to, const Binder& from) { to.n = from.n; },
     [](Binder& b) { return std::vector<Figure*>{&b.n}; }},
    {"color",
     [](Binder& to, const Binder& from) {
         to.gardner = from.gardner;
         to.gardner_solids_volume_percent = from.gardner_solids_volume_percent;
         to.absorption_per_mm = from.absorption_per_mm;
     },
     [](Binder& b) { return stated({&b.gardner}); }},
    {"film",
     [](Binder& to, const Binder& from) {
         to.solids_volume_percent = from.solids_volume_percent;
         to.density_g_per_ml = from.density_g_per_ml;
         to.resin_density_g_per_ml = from.resin_density_g_per_ml;
         to.cut_lb = from.cut_lb;
         to.wet_um = from.wet_um;
     },
     [](Binder& b) {
         auto out = stated({&b.solids_volume_percent, &b.cut_lb});
         for (auto& wet : b.wet_um)
             if (wet) out.push_back(&*wet);
         return out;
     }},
    {"haze",
     [](Binder& to, const Binder& from) { to.haze_per_mm = from.haze_per_mm, to.haze_exponent = from.haze_exponent; },
     [](Binder& b) { return std::vector<Figure*>{&b.haze_per_mm}; }},
    {"contact", [](Binder& to, const Binder& from) { to.contact = from.contact; },
     [](Binder& b) { return stated({&b.contact}); }, -1},
    {"stay", [](Binder& to, const Binder& from) { to.stay = from.stay; },
     [](Binder& b) { return std::vector<Figure*>{&b.stay}; }, -1},
    {"depth", [](Binder& to, const Binder& from) { to.depth_um = from.depth_um; },
     [](Binder& b) { return std::vector<Figure*>{&b.depth_um}; }},
    {"gloss", [](Binder& to, const Binder& from) { to.sheen_gu60 = from.sheen_gu60; },
     [](Binder& b) { return std::vector<Figure*>{&b.sheen_gu60}; }},
};

Binder& binder(material::Material& m) { return std::get<Binder>(m.data); }

}  // namespace

FilmDifferences::FilmDifferences(const scene::Library& library, const std::vector<std::string>& named)
    : weights_(color::make_weights(library.illuminant("D65"), library.observer("10deg"))),
      solver_(appearance::two_flux_solver()) {
    require_materials(library, {named.begin(), named.end()}, "the table of published orders");
    materials_ = library.materials();
}

double FilmDifferences::of(const std::string& wood, const std::string& use) const {
    return of(std::vector{wood}, materials_.at(use));
}

double FilmDifferences::of(const std::vector<std::string>& woods, const material::Material& finish) const {
    schedule::Step step;
    step.mix = {{finish.id, schedule::Amount::parts, 1}};
    material::Materials materials{{finish.id, finish}};
    if (const auto carrier = materials_.find(std::get<Binder>(finish.data).carrier); carrier != materials_.end())
        materials.insert(*carrier);
    const auto deposit = schedule::deposit(step, materials);
    double sum = 0;
    for (const auto& id : woods) {
        const auto& wood = wood_of(id);
        sum += color::delta_e_ab(seen(appearance::after_coats({}, deposit, 2, wood), wood), seen({}, wood));
    }
    return sum / static_cast<double>(woods.size());
}

double FilmDifferences::wetted(const std::string& wood_id) const {
    const auto& wood = wood_of(wood_id);
    schedule::Step step;
    step.mix = {{"water", schedule::Amount::parts, 1}};
    step.wet_g_per_m2 = 70;
    return color::delta_e_ab(seen(appearance::while_wet({}, schedule::deposit(step, materials_), wood), wood),
                             seen({}, wood));
}

double FilmDifferences::lightness(const std::string& wood) const { return seen({}, wood_of(wood)).l; }

DifferenceParts FilmDifferences::between(const std::vector<std::string>& woods, const std::string& here,
                                         const std::string& there) const {
    const double at_here = of(woods, materials_.at(here)), at_there = of(woods, materials_.at(there));
    DifferenceParts out;
    out.whole = at_there - at_here;
    double variance = 0;
    for (const auto& part : all_parts) {
        auto changed = materials_.at(here);
        part.take(binder(changed), std::get<Binder>(materials_.at(there).data));
        out.parts.push_back({part.name, of(woods, changed) - at_here});
        for (const auto& [id, at] : {std::pair(here, at_here), std::pair(there, at_there)}) {
            auto moved = materials_.at(id);
            for (auto* figure : part.figures(binder(moved))) {
                const double held = figure->value;
                figure->value += part.side * figure->sd;
                variance += std::pow(of(woods, moved) - at, 2);
                figure->value = held;
            }
        }
    }
    out.sd = std::sqrt(variance);
    std::stable_sort(out.parts.begin(), out.parts.end(),
                     [](const auto& a, const auto& b) { return std::abs(a.de_ab) > std::abs(b.de_ab); });
    return out;
}

const material::Wood& FilmDifferences::wood_of(const std::string& id) const {
    return std::get<material::Wood>(materials_.at(id).data);
}

Lab FilmDifferences::seen(const appearance::Board& board, const material::Wood& wood) const {
    auto sum = appearance::render(board, wood, Geometry::d8_included, solver_).total();
    const auto other = appearance::render(board, wood, Geometry::d8_excluded, solver_).total();
    for (std::size_t i = 0; i < sum.size(); ++i) sum[i] = 0.5 * (sum[i] + other[i]);
    return color::to_lab(color::xyz(sum, weights_), weights_.white);
}

std::string parts_text(const DifferenceParts& parts) {
    std::string out;
    for (const auto& p : parts.parts) {
        if (std::abs(p.de_ab) < 0.05) continue;
        out += (out.empty() ? "" : ", ") + p.figure + " " + base::fixed(p.de_ab, 1);
    }
    return out.empty() ? "no figure by itself" : out;
}

}  // namespace foretone::job
