// What a fit predicts of another finish: its materials' errors with their correlations, carried to the color by small
// moves.

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "fit_work.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/search/finished.hpp"

namespace foretone::measure {
using color::Lab;

double de00_of(const Lab& at, const std::vector<Eigen::Vector3d>& moves) {
    double sum = 0;
    for (const auto& m : moves) {
        const double d = color::delta_e_00(at, {at.l + m(0), at.a + m(1), at.b + m(2)});
        sum += d * d;
    }
    return std::sqrt(sum);
}

double Fit::Work::error_along(const Eigen::VectorXd& g) const {
    Eigen::VectorXd f(static_cast<Eigen::Index>(effective.size())), rest = g;
    for (std::size_t a = 0; a < effective.size(); ++a) {
        f(static_cast<Eigen::Index>(a)) = g(static_cast<Eigen::Index>(effective[a]));
        rest(static_cast<Eigen::Index>(effective[a])) = 0;
    }
    return std::sqrt(std::max(0.0, f.dot(covariance_of * f)) + rest.squaredNorm());
}

schedule::Finish Fit::as_laid(const schedule::Finish& finish) const {
    schedule::Finish out = finish;
    const auto& model = work_->model;
    for (auto& step : out.steps) {
        for (const auto& part : step.mix)
            if (!model.question().materials.count(part.use)) return out;
        const std::string binder = laid_material(step, model.question().materials);
        if (binder.empty()) continue;
        const std::size_t k = model.unknowns().build_of(binder, schedule::method_of(step, model.question().materials));
        if (k == none) continue;
        const double factor = std::exp(model.unknowns().all()[k].sd * work_->p(static_cast<Eigen::Index>(k)));
        if (step.wet_um) *step.wet_um *= factor;
        if (step.wet_g_per_m2) *step.wet_g_per_m2 *= factor;
        if (step.coverage_m2_per_l) *step.coverage_m2_per_l /= factor;
    }
    return out;
}

double Fit::spread_de00(const std::string& wood, const schedule::Finish& finish, const color::Weights& weights) const {
    constexpr double h = 1e-3;
    FitModel& model = work_->model;
    const auto solver = appearance::two_flux_solver();
    material::Materials materials = model.question().materials;
    for (const auto& [id, m] : model.unknowns().materials()) materials[id] = m;
    const auto look = [&](const schedule::Finish& f) {
        const auto lab = color::to_lab(
            color::xyz(search::finished({materials, wood, model.question().geometry, solver}, f), weights),
            weights.white);
        return Eigen::Vector3d(lab.l, lab.a, lab.b);
    };
    const schedule::Finish laid = as_laid(finish);
    const Eigen::Vector3d base = look(laid);
    std::set<std::string> used = {wood};
    for (const auto& step : finish.steps)
        for (const auto& part : step.mix) used.insert(part.use);
    // What the fit knows of: correlated.
    Eigen::MatrixXd g = Eigen::MatrixXd::Zero(3, static_cast<Eigen::Index>(work_->effective.size()));
    for (std::size_t a = 0; a < work_->effective.size(); ++a) {
        const auto& u = model.unknowns().all()[work_->effective[a]];
        if (u.noise() || (u.kind == Unknown::Kind::wood && u.material != wood)) continue;
        const auto k = static_cast<Eigen::Index>(work_->effective[a]);
        Eigen::VectorXd moved = work_->p;
        moved(k) += h;
        model.set(moved);
        materials.at(u.material) = model.unknowns().materials().at(u.material);
        std::swap(work_->p, moved);
        g.col(static_cast<Eigen::Index>(a)) = (look(as_laid(finish)) - base) / h;
        std::swap(work_->p, moved);
        model.set(work_->p);
        materials.at(u.material) = model.unknowns().materials().at(u.material);
    }
    Eigen::Matrix3d cov = g * work_->covariance_of * g.transpose();
    const auto add = [&](const Eigen::Vector3d& move) { cov += move * move.transpose(); };
    // Materials that no board of the fit holds: their own spread, each figure by itself.
    for (const auto& id : used) {
        if (model.unknowns().library().count(id) || !materials.count(id)) continue;
        for (auto& f : material::figures(materials.at(id))) {
            if (!f.optical || f.sd() <= 0) continue;
            const material::Material before = materials.at(id);
            material::move(f, 1);
            add(look(laid) - base);
            materials.at(id) = before;
        }
    }
    // The hand on the next board.
    for (std::size_t s = 0; s < laid.steps.size(); ++s) {
        schedule::Finish thicker = laid;
        auto& step = thicker.steps[s];
        step.wet_um = schedule::deposit(step, materials).wet_um * (1 + h);
        step.wet_g_per_m2 = step.coverage_m2_per_l = std::nullopt;
        if (*step.wet_um > 500) continue;
        const Eigen::Vector3d whole = (look(thicker) - base) / h * model.question().noise.hand;
        // Half of the variance is common to the step's coats, half is each coat's own.
        const double coats = static_cast<double>(std::max(1, step.coats));
        add(whole * std::sqrt(0.5 + 0.5 / coats));
    }
    const Lab at{base(0), base(1), base(2)};
    const Eigen::LLT<Eigen::Matrix3d> root(cov + 1e-12 * Eigen::Matrix3d::Identity());
    const Eigen::Matrix3d l = root.matrixL();
    return de00_of(at, {l.col(0), l.col(1), l.col(2)});
}

}  // namespace foretone::measure
