#pragma once
// Levenberg's method over some of a model's unknowns, and the errors that follow from its Jacobian.

#include "fit_model.hpp"

namespace foretone::learn {

/// The unknowns that fit best, starting at `p`, with all but `active` as in `p`. Sets the model.
Eigen::VectorXd best_fit(FitModel& model, Eigen::VectorXd p, const std::vector<std::size_t>& active);

/// JᵀJ; quick where most of J is nothing.
Eigen::MatrixXd squared(const Eigen::MatrixXd& jacobian);

/// (JᵀJ)⁻¹ of a Jacobian that holds its prior's rows.
Eigen::MatrixXd covariance(const Eigen::MatrixXd& jacobian);

/// Covariance of all of `active` at `p`, (JᵀJ)⁻¹, in the order of `active`.
Eigen::MatrixXd covariance(FitModel& model, const Eigen::VectorXd& p, const std::vector<std::size_t>& active);

}  // namespace foretone::learn
