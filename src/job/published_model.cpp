#include "published_model.hpp"

#include <algorithm>
#include <set>
#include <cmath>

#include "foretone/appearance/render.hpp"
#include "foretone/appearance/surface_state.hpp"
#include "foretone/material/relevel.hpp"
#include "required.hpp"

namespace foretone::job {
namespace {
using What = Unknown::What;
using color::Lab;
using optics::Geometry;

double logistic(double z) { return 1 / (1 + std::exp(-z)); }

schedule::Step brushed(const PublishedBoard& board) {
    schedule::Step step;
    for (const auto& id : board.finish) step.mix.push_back({id, schedule::Amount::parts, 1});
    step.method = material::Method::brush;
    step.coats = board.coats;
    return step;
}

}  // namespace

PublishedModel::PublishedModel(const scene::Library& library, std::vector<Unknown> unknowns)
    : weights_(color::make_weights(library.illuminant("D65"), library.observer("10deg"))),
      unknowns_(std::move(unknowns)) {
    std::set<std::string> named;
    for (const auto& board : published_boards()) {
        named.insert(board.like);
        named.insert(board.finish.begin(), board.finish.end());
    }
    require_materials(library, named, "the table of published boards");
    library_ = library.materials();
}

bool PublishedModel::touches(const Unknown& u, const PublishedBoard& board) const {
    switch (u.what) {
        case What::solid:
        case What::level:
            return true;
        case What::wood_solid:
        case What::bare_l:
        case What::bare_a:
        case What::bare_b:
            return u.of == board.species;
        case What::instrument:
            return u.of == board.laboratory;
        case What::paper_film:
        case What::geometry:
        case What::change:
            return u.of == board.paper;
        case What::contact:
        case What::stay:
        case What::gardner:
        case What::film:
            break;
    }
    return std::any_of(board.finish.begin(), board.finish.end(),
                       [&](const auto& id) { return finish_kind(library_.at(id)) == u.of; });
}

double PublishedModel::value(What what, const std::string& of, const std::vector<double>& x, double otherwise) const {
    for (std::size_t i = 0; i < unknowns_.size(); ++i)
        if (unknowns_[i].what == what && unknowns_[i].of == of) return x[i];
    return otherwise;
}

material::Wood PublishedModel::wood(const PublishedBoard& board, const std::vector<double>& x) const {
    auto wood = std::get<material::Wood>(library_.at(board.like).data);
    const Lab here =
        board.bare ? *board.bare : color::to_lab(color::xyz(wood.reflectance.values, weights_), weights_.white);
    const Lab target{here.l + value(What::bare_l, board.species, x, 0),
                     here.a + value(What::bare_a, board.species, x, 0),
                     here.b + value(What::bare_b, board.species, x, 0)};
    material::relevel(wood, target, weights_);
    if (board.porosity) wood.porosity.value = *board.porosity;
    const double solid = (1 - wood.porosity.value) *
                         std::exp(value(What::solid, "", x, 0) + value(What::wood_solid, board.species, x, 0));
    wood.surface_k2.value =
        std::min(0.7, appearance::dry_inner_reflection(wood.surface_k1.value, std::min(1.0, solid), wood.n.value));
    wood.level_um.value *= std::exp(value(What::level, "", x, 0));
    return wood;
}

material::Materials PublishedModel::materials(const PublishedBoard& board, const std::vector<double>& x) const {
    material::Materials materials;
    for (const auto& id : board.finish) {
        auto& m = materials[id] = library_.at(id);
        auto& binder = std::get<material::Binder>(m.data);
        const std::string kind = finish_kind(m);
        if (const double z = value(What::contact, kind, x, NAN); !std::isnan(z)) binder.contact = {logistic(z), 0, {}};
        if (const double z = value(What::stay, kind, x, NAN); !std::isnan(z)) binder.stay.value = logistic(z);
        if (const double g = value(What::gardner, kind, x, NAN); !std::isnan(g) && binder.gardner)
            binder.gardner->value = std::clamp(g, 1.0, 18.0);
        const double film = std::exp(value(What::film, kind, x, 0) + value(What::paper_film, board.paper, x, 0));
        for (auto& wet : binder.wet_um)
            if (wet) wet->value *= film;
        if (library_.count(binder.carrier)) materials[binder.carrier] = library_.at(binder.carrier);
    }
    return materials;
}

Change PublishedModel::change(const PublishedBoard& board, const std::vector<double>& x) const {
    const auto on = wood(board, x);
    const auto deposit = schedule::deposit(brushed(board), materials(board, x));
    const auto done = appearance::after_coats({}, deposit, board.coats, on);
    static const auto solver = appearance::two_flux_solver();
    const double excluded =
        logistic(value(What::instrument, board.laboratory, x, 0) + value(What::geometry, board.paper, x, 0));
    const auto with = appearance::render(done, on, Geometry::d8_included, solver).total();
    const auto without = appearance::render(done, on, Geometry::d8_excluded, solver).total();
    spectral::Spectrum seen;
    for (std::size_t i = 0; i < seen.size(); ++i) seen[i] = (1 - excluded) * with[i] + excluded * without[i];
    const Lab before = color::to_lab(color::xyz(on.reflectance.values, weights_), weights_.white);
    const Lab after = color::to_lab(color::xyz(seen, weights_), weights_.white);
    const double whole = std::exp(value(What::change, board.paper, x, 0));
    const Lab lab{whole * (after.l - before.l), whole * (after.a - before.a), whole * (after.b - before.b)};
    return {lab, std::sqrt(lab.l * lab.l + lab.a * lab.a + lab.b * lab.b)};
}

}  // namespace foretone::job
