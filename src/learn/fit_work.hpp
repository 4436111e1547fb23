#pragma once
// A fit in progress, and what it keeps.

#include "fit_model.hpp"

namespace foretone::learn {

struct Fit::Work {
    explicit Work(const FitQuestion& q) : model(q) {}

    void run();
    void choose_active();
    bool felt(std::size_t law);
    Eigen::VectorXd mean_slope(std::size_t law);
    void refuse_contradictions() const;
    void put_back_unresolved();
    void state_figures();
    void compare_readings();
    void refuse_bad() const;
    void leave_one_out();
    void fill_joint();

    FitModel model;
    std::vector<std::size_t> active;     // fitted in the end
    std::vector<std::size_t> effective;  // all that have an effect on some reading, noise included
    std::vector<std::size_t> reckoned;   // figures of how coats go in that some reading feels: not fitted
    Eigen::VectorXd p;
    Eigen::MatrixXd jacobian_of;     // at p: of effective, then of reckoned
    Eigen::MatrixXd covariance_of;   // of effective
    std::set<std::string> resolved;  // groups
    FitResult result;

    /// Covariance of the errors of `active`, then of `beside`, which the fit holds at 0 though they are not known: all
    /// of them effective or reckoned.
    Eigen::MatrixXd covariance_with(const std::vector<std::size_t>& beside) const;

    /// One standard error of a figure whose gradient by all unknowns is `g`; unknowns that no reading depends on keep
    /// their prior.
    double error_along(const Eigen::VectorXd& g) const;

    /// Is any unknown of that group fitted, rather than the library's?
    bool fitted(const std::string& group) const;
};

/// ΔE00 of small moves of a color, as the root of their squares.
double de00_of(const color::Lab& at, const std::vector<Eigen::Vector3d>& moves);

}  // namespace foretone::learn
