// A stock's powders keep the library's strengths; what was found of them goes into the stock's own loads and its
// strength, so that the written stock stands by itself. A powder that a step uses as such carries its strength in its
// absorptivity.

#include "fitted_materials.hpp"

#include <algorithm>
#include <cmath>

#include "headlines.hpp"

namespace foretone::learn {
namespace {
using material::Binder;
using material::Mark;

const FittedFigure* find(const FitResult& result, const std::string& material, const std::string& figure) {
    for (const auto& f : result.figures)
        if (f.material == material && f.figure.rfind(figure, 0) == 0) return &f;
    return nullptr;
}

class Filler {
public:
    Filler(const FitModel& model, const std::set<std::string>& resolved, FitResult& result)
        : model_(model), resolved_(resolved), out_(result) {}

    void fill() {
        out_.materials = model_.unknowns().library();
        for (const auto& coats : model_.unknowns().coats())
            for (const auto& laid : coats)
                for (const auto& part : laid.step.mix) direct_.insert(part.use);
        for (auto& [id, m] : out_.materials) {
            const auto& fitted = model_.unknowns().materials().at(id);
            if (auto* wood = std::get_if<material::Wood>(&m.data))
                fill_wood(id, std::get<material::Wood>(fitted.data), *wood);
            if (auto* dye = std::get_if<material::Dye>(&m.data))
                fill_dye(id, std::get<material::Dye>(fitted.data), *dye);
            if (auto* stock = std::get_if<material::Stock>(&m.data)) fill_stock(id, *stock);
            if (auto* binder = std::get_if<Binder>(&m.data)) fill_binder(id, std::get<Binder>(fitted.data), *binder);
            fill_figures(id, m);
        }
        out_.changed.assign(changed_.begin(), changed_.end());
        say_unresolved();
    }

private:
    material::Provenance fitted(const std::string& id) {
        changed_.insert(id);
        return {Mark::fitted, ""};
    }

    void fill_wood(const std::string& id, const material::Wood& from, material::Wood& to) {
        to.reflectance.values = from.reflectance.values;
        if (!resolved_.count(id + " reflectance")) return;
        // One board from the next stays, however well one board is known; d ln R = 3 dL*/(L* + 16).
        const auto* l = find(out_, id, "bare L*");
        const double board = model_.question().noise.board_de;
        to.reflectance.sd = std::hypot(l->error, board) * 3 / (l->value + 16);
        to.reflectance.from = fitted(id);
        to.reflectance.resampled = to.reflectance.held_below = to.reflectance.held_above = false;
    }

    void fill_dye(const std::string& id, const material::Dye& from, material::Dye& to) {
        if (!direct_.count(id)) return;
        to.molar_absorptivity.values = from.molar_absorptivity.values;
        const auto* f = find(out_, id, "strength");
        if (!f || !resolved_.count("dyes")) return;
        to.molar_absorptivity.sd = f->error;
        to.molar_absorptivity.from = fitted(id);
    }

    void fill_stock(const std::string& id, material::Stock& to) {
        const auto* f = find(out_, id, "strength");
        if (!f) return;
        for (auto& load : to.mix) {
            if (direct_.count(load.use)) continue;
            const double before = whole_absorbance(model_.unknowns().library(), load.use),
                         now = whole_absorbance(model_.unknowns().materials(), load.use);
            if (before > 0) load.g_per_l *= now / before;
        }
        const double now = std::get<material::Stock>(model_.unknowns().materials().at(id).data).strength.value;
        // The loads carry the recipe's proportions, the strength carries the rest.
        double loads = 0, library = 0;
        for (const auto& load : to.mix) loads += load.g_per_l * whole_absorbance(model_.unknowns().library(), load.use);
        const auto& original = std::get<material::Stock>(model_.unknowns().library().at(id).data);
        for (const auto& load : original.mix)
            library += load.g_per_l * whole_absorbance(model_.unknowns().library(), load.use);
        const double whole = library > 0 ? loads / library : 1;
        for (auto& load : to.mix) load.g_per_l /= whole;
        to.strength.value = std::clamp(now * whole, 0.05, 5.0);
        if (!resolved_.count("dyes")) return;
        to.strength.sd = f->error * to.strength.value;
        to.strength.from = fitted(id);
    }

    void fill_binder(const std::string& id, const Binder& from, Binder& to) {
        const bool resolved = resolved_.count(id + " film") > 0;
        if (from.absorption_per_mm && (resolved || !model_.question().keep_unresolved)) {
            to.absorption_per_mm = from.absorption_per_mm;
            to.gardner.reset();
            to.gardner_solids_volume_percent.reset();
            if (const auto* f = find(out_, id, "absorption at 450"); f && resolved) {
                to.absorption_per_mm->sd = f->error;
                to.absorption_per_mm->from = fitted(id);
            }
        }
        for (std::size_t i = 0; i < to.wet_um.size(); ++i) {
            const std::string word(material::method_words[i]);
            const auto* f = find(out_, id, "dry build of a coat, " + word);
            if (!f || !to.wet_um[i]) continue;
            const double usual = to.wet_um[i]->value;
            to.wet_um[i]->value = laid_um(id, static_cast<material::Method>(i));
            if (!resolved || to.wet_um[i]->value == usual) continue;
            to.wet_um[i]->sd = f->error * to.wet_um[i]->value;
            to.wet_um[i]->from = fitted(id);
        }
    }

    // What a coat comes to: of what a step states, or of what is usual.
    double laid_um(const std::string& binder, material::Method method) const {
        const auto build = model_.unknowns().build_of(binder, method);
        for (const auto& coats : model_.unknowns().coats())
            for (const auto& laid : coats)
                if (laid.build == build) return model_.wet_um(laid, false);
        return 0;
    }

    void fill_figures(const std::string& id, material::Material& m) {
        auto at = material::figures(m);
        for (const auto& f : out_.figures) {
            if (f.material != id || (f.factor && f.headline)) continue;  // no figure of a file: filled in above
            for (auto& target : at) {
                if (target.key != f.figure) continue;
                if (target.figure)
                    target.figure->value = f.value;
                else
                    for (double& v : target.spectrum->values) v = std::clamp(v * f.value, target.low, target.high);
                if (!f.resolved) continue;
                if (target.figure)
                    target.figure->sd =
                        f.factor ? f.value * std::sqrt(std::expm1(f.error * f.error)) : f.error;  // as a fit reads it
                else
                    target.spectrum->sd = f.error;
                target.from() = fitted(id);
            }
        }
    }

    void say_unresolved() {
        std::map<std::string, std::string> kept;
        for (const auto& f : out_.figures) {
            if (f.resolved) continue;
            auto& list = kept[f.material];
            list += (list.empty() ? "" : ", ") + f.figure;
        }
        for (const auto& [id, list] : kept)
            out_.notes.push_back(
                id + ": the readings hardly narrow " + list +
                (model_.question().keep_unresolved ? "; kept at, or close to, the library's figures" : ""));
        for (const auto& coats : model_.unknowns().coats())
            for (const auto& laid : coats) {
                if (!laid.said || laid.build == none || laid.coat != 1) continue;
                const std::string text =
                    "step " + std::to_string(laid.number) +
                    " states its wet film: what was found of its build is in the material's usual wet film; "
                    "leave the amount out of a scene's step to use it";
                if (std::find(out_.notes.begin(), out_.notes.end(), text) == out_.notes.end())
                    out_.notes.push_back(text);
            }
    }

    const FitModel& model_;
    const std::set<std::string>& resolved_;
    FitResult& out_;
    std::set<std::string> direct_, changed_;
};

}  // namespace

void fill_materials(const FitModel& model, const std::set<std::string>& resolved, FitResult& result) {
    Filler(model, resolved, result).fill();
}

}  // namespace foretone::learn
