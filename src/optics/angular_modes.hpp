#pragma once
/// The modes of light in a scattering medium: the basis in which its equations fall apart.

#include <Eigen/Dense>
#include <array>
#include <cstddef>

#include "angular_scatter.hpp"

namespace foretone::optics::angular_detail {

/// s = to_s c and d = to_d p, to_d = to_sᵀ⁻¹, with dc/dτ = −p and dp/dτ = −γ²c mode by mode.
struct Modes {
    Eigen::MatrixXd to_s, to_d;
    Eigen::VectorXd rate;  ///< γ ≥ 0, per unit optical depth
};

/// Finds modes; keeps its work space from wavelength to wavelength, and the modes last found: layers of one albedo, and
/// wavelengths, have them in common.
class ModeSolver {
public:
    /// Modes for scattering share a = µs/(µa + µs) and absorbed share b = 1 − a, given apart to keep a small b exact.
    /// Valid until the next call; `medium` is known again by its address.
    const Modes& solve(const Scattering& medium, double a, double b);

private:
    struct Found {
        const Scattering* medium = nullptr;
        double a = 0, b = 0;
        Modes modes;
    };
    void find(const Scattering& medium, double a, double b, Modes& modes);
    void reflect_rows(Eigen::MatrixXd& m);

    std::array<Found, 8> found_;
    std::size_t next_ = 0;  ///< the place found longest ago
    Eigen::MatrixXd part_, lower_, product_;
    Eigen::VectorXd mirror_, column_;
    Eigen::RowVectorXd row_;
    Eigen::LLT<Eigen::MatrixXd> cholesky_;
    Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> eigen_;
};

}  // namespace foretone::optics::angular_detail
