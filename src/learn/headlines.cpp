#include "headlines.hpp"

#include <cmath>

#include "foretone/material/optics_of.hpp"
#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/pot.hpp"

namespace foretone::learn {
namespace {
using material::Binder;

constexpr std::size_t at_450 = 14;  // grid point of 450 nm

void add_wood(const FitModel& model, const std::string& id, std::vector<Headline>& out) {
    const color::Weights w = model.question().readings.front().weights;
    const auto lab = [w, id](const FitModel& m) {
        const auto& r = std::get<material::Wood>(m.unknowns().materials().at(id).data).reflectance.values;
        return color::to_lab(color::xyz(r, w), w.white);
    };
    const std::string group = id + " reflectance";
    out.push_back({id, "bare L*", "", group, false, [lab](const FitModel& m) { return lab(m).l; }});
    out.push_back({id, "bare a*", "", group, false, [lab](const FitModel& m) { return lab(m).a; }});
    out.push_back({id, "bare b*", "", group, false, [lab](const FitModel& m) { return lab(m).b; }});
}

void add_film(const LaidCoat& laid, const std::string& id, const std::string& method, bool first,
              std::vector<Headline>& out) {
    const auto alpha = [id](const FitModel& m) {
        return material::absorption_per_mm(std::get<Binder>(m.unknowns().materials().at(id).data))[at_450];
    };
    const auto build = [laid](const FitModel& m) {
        return m.wet_um(laid, false) * dry_share(laid.step, m.unknowns().library());
    };
    const std::string group = id + " film";
    if (first) out.push_back({id, "absorption at 450 nm", "1/mm", group, true, alpha});
    out.push_back({id, "dry build of a coat, " + method, "um", group, true, build});
    out.push_back({id, "tint of a coat at 450 nm, " + method, "", group, true,
                   [alpha, build](const FitModel& m) { return alpha(m) * build(m) / 1000; }});
}

}  // namespace

double whole_absorbance(const material::Materials& materials, const std::string& id) {
    const auto powder = [&](const std::string& dye) {
        const auto* data = std::get_if<material::Dye>(&materials.at(dye).data);
        double sum = 0;
        if (!data) return sum;
        const auto a = material::mass_absorptivity_m2_per_g(*data);
        for (std::size_t i = 0; i < a.size(); ++i)
            if (spectral::grid_nm(i) >= 400 && spectral::grid_nm(i) <= 700) sum += a[i];
        return sum;
    };
    const auto* stock = std::get_if<material::Stock>(&materials.at(id).data);
    if (!stock) return powder(id);
    double sum = 0;
    for (const auto& load : stock->mix) sum += load.g_per_l * stock->strength.value * powder(load.use);
    return sum;
}

double dry_share(const schedule::Step& step, const material::Materials& materials) {
    return schedule::mix(step, materials).solids_share();
}

std::vector<Headline> headlines(const FitModel& model) {
    std::vector<Headline> out;
    std::set<std::string> seen;
    for (const auto& board : model.question().boards)
        if (seen.insert(board.wood).second) add_wood(model, board.wood, out);
    for (const auto& coats : model.unknowns().coats())
        for (const auto& laid : coats) {
            for (const auto& part : laid.step.mix) {
                const auto& m = model.unknowns().library().at(part.use);
                const double library = whole_absorbance(model.unknowns().library(), m.id);
                if ((m.kind != material::Kind::stock && m.kind != material::Kind::dye) || library <= 0 ||
                    !seen.insert(m.id).second)
                    continue;
                const std::string id = m.id;
                out.push_back({id, "strength", "", "dyes", true, [id, library](const FitModel& f) {
                                   return whole_absorbance(f.unknowns().materials(), id) / library;
                               }});
            }
            const std::string binder = laid_material(laid.step, model.unknowns().library());
            if (binder.empty() || laid.build == none) continue;
            const auto method = schedule::method_of(laid.step, model.unknowns().library());
            const std::string word(material::method_words[static_cast<std::size_t>(method)]);
            const bool first = seen.insert(binder).second;
            if (seen.insert(binder + "/" + word).second) add_film(laid, binder, word, first, out);
        }
    return out;
}

Eigen::VectorXd gradient(FitModel& model, const Headline& headline, const Eigen::VectorXd& p) {
    constexpr double h = 1e-4;
    Eigen::VectorXd out = Eigen::VectorXd::Zero(p.size()), moved = p;
    model.set(p);
    const double at = headline.value(model);
    const auto& all = model.unknowns().all();
    const auto* stock = std::get_if<material::Stock>(&model.unknowns().library().at(headline.material).data);
    for (std::size_t k = 0; k < all.size(); ++k) {
        const bool part = stock && all[k].kind == Unknown::Kind::dye;
        if (all[k].noise() || !(all[k].material == headline.material || part) || all[k].kind == Unknown::Kind::figure)
            continue;
        const auto i = static_cast<Eigen::Index>(k);
        moved(i) = p(i) + h;
        model.set(moved);
        const double v = headline.value(model);
        out(i) = headline.factor ? std::log(v / at) / h : (v - at) / h;
        moved(i) = p(i);
    }
    model.set(p);
    return out;
}

}  // namespace foretone::learn
