// What a fit's errors come to along a direction, and how its hand lays another finish.

#include <algorithm>
#include <cmath>

#include "fit_work.hpp"
#include "foretone/schedule/pot.hpp"

namespace foretone::learn {
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

}  // namespace foretone::learn
