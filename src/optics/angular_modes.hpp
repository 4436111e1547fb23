#pragma once
/// The modes of light in a scattering medium: the basis in which its equations fall apart.

#include <Eigen/Dense>

#include "angular_scatter.hpp"

namespace foretone::optics::angular_detail {

/// s = to_s c and d = to_d p, to_d = to_sᵀ⁻¹, with dc/dτ = −p and dp/dτ = −γ²c mode by mode.
struct Modes {
    Eigen::MatrixXd to_s, to_d;
    Eigen::VectorXd rate;  ///< γ ≥ 0, per unit optical depth
};

/// Finds modes; keeps its work space from wavelength to wavelength.
class ModeSolver {
public:
    /// Modes for scattering share a = µs/(µa + µs) and absorbed share b = 1 − a, given apart to keep a small b exact.
    const Modes& solve(const Scattering& medium, double a, double b);

private:
    void reflect_rows(Eigen::MatrixXd& m);

    Modes modes_;
    Eigen::MatrixXd part_, lower_, product_;
    Eigen::VectorXd mirror_, column_;
    Eigen::RowVectorXd row_;
    Eigen::LLT<Eigen::MatrixXd> cholesky_;
    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen_;
};

}  // namespace foretone::optics::angular_detail
