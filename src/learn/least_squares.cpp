#include "least_squares.hpp"

#include <Eigen/Cholesky>
#include <unsupported/Eigen/LevenbergMarquardt>

namespace foretone::learn {
namespace {

// The model as the minimiser wants it: the active unknowns alone.
struct Active : Eigen::DenseFunctor<double> {
    Active(FitModel& m, Eigen::VectorXd& all, const std::vector<std::size_t>& which, Eigen::Index rows)
        : DenseFunctor<double>(static_cast<int>(which.size()), static_cast<int>(rows)),
          model(m),
          p(all),
          active(which) {}

    void fill(const Eigen::VectorXd& x) const {
        for (std::size_t a = 0; a < active.size(); ++a)
            p(static_cast<Eigen::Index>(active[a])) = x(static_cast<Eigen::Index>(a));
    }
    int operator()(const Eigen::VectorXd& x, Eigen::VectorXd& f) const {
        fill(x);
        f = model.residuals(p);
        return 0;
    }
    int df(const Eigen::VectorXd& x, Eigen::MatrixXd& j) const {
        fill(x);
        j = model.jacobian(p, active);
        return 0;
    }

    FitModel& model;
    Eigen::VectorXd& p;
    const std::vector<std::size_t>& active;
};

}  // namespace

Eigen::VectorXd best_fit(FitModel& model, Eigen::VectorXd p, const std::vector<std::size_t>& active) {
    if (active.empty()) return p;
    Active functor(model, p, active, model.residuals(p).size());
    Eigen::LevenbergMarquardt<Active> minimiser(functor);
    minimiser.setXtol(1e-4);
    minimiser.setFtol(1e-6);
    minimiser.setMaxfev(60);
    Eigen::VectorXd x(static_cast<Eigen::Index>(active.size()));
    for (std::size_t a = 0; a < active.size(); ++a)
        x(static_cast<Eigen::Index>(a)) = p(static_cast<Eigen::Index>(active[a]));
    minimiser.minimize(x);
    functor.fill(x);
    model.set(p);
    return p;
}

Eigen::MatrixXd covariance(FitModel& model, const Eigen::VectorXd& p, const std::vector<std::size_t>& active) {
    const Eigen::MatrixXd j = model.jacobian(p, active);
    const auto n = static_cast<Eigen::Index>(active.size());
    return (j.transpose() * j)
        .ldlt()
        .solve(Eigen::MatrixXd::Identity(n, n));  // the prior's rows keep it well away from singular
}

}  // namespace foretone::learn
