// A correction c(λ) is normal with covariance  C(λ, λ′) = σ_l² + σ_t² t t′ + σ_b² t² t′² + σ_s² exp(−(λ − λ′)²/2ℓ²),  t
// = (λ − pivot)/tilt_nm. Its eigenvectors, scaled by the roots of their eigenvalues, are the curves (Karhunen–Loève);
// those that carry less than a millionth of the variance are left out. A fit in their amplitudes is small and
// well-conditioned where one in 81 free values would be neither.

#include "fields.hpp"

#include <Eigen/Eigenvalues>
#include <cmath>

namespace foretone::learn {
using spectral::Spectrum;

std::vector<Spectrum> field_curves(const FieldPrior& p) {
    const auto t = [&](std::size_t i) { return (spectral::grid_nm(i) - p.pivot_nm) / p.tilt_nm; };
    std::vector<Spectrum> out;
    if (p.shape <= 0) {
        for (int power = 0; power < 3; ++power) {
            const double sd = power == 0 ? p.level : power == 1 ? p.tilt : p.bend;
            if (sd <= 0) continue;
            out.emplace_back();
            for (std::size_t i = 0; i < spectral::grid_size; ++i) out.back()[i] = sd * std::pow(t(i), power);
        }
        return out;
    }
    constexpr auto n = static_cast<Eigen::Index>(spectral::grid_size);
    Eigen::MatrixXd c(n, n);
    for (Eigen::Index i = 0; i < n; ++i)
        for (Eigen::Index j = 0; j < n; ++j) {
            const double a = t(static_cast<std::size_t>(i)), b = t(static_cast<std::size_t>(j));
            const double apart = static_cast<double>(i - j) * spectral::grid_step_nm / p.smooth_nm;
            c(i, j) = p.level * p.level + p.tilt * p.tilt * a * b + p.bend * p.bend * a * a * b * b +
                      p.shape * p.shape * std::exp(-apart * apart / 2);
        }
    const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> solved(c);
    for (Eigen::Index k = n; k-- > 0 && solved.eigenvalues()(k) > 1e-6 * c.trace();) {
        Spectrum curve;
        // The sign of an eigenvector is free: its sum is made positive, so that results do not depend on the library's
        // choice.
        const auto v = solved.eigenvectors().col(k);
        const double scale = std::sqrt(solved.eigenvalues()(k)) * (v.sum() < 0 ? -1 : 1);
        for (std::size_t i = 0; i < curve.size(); ++i) curve[i] = scale * v(static_cast<Eigen::Index>(i));
        out.push_back(curve);
    }
    return out;
}

double shifted(double reflectance, double shift) {
    const double ks = (1 - reflectance) * (1 - reflectance) / (2 * reflectance) * std::exp(shift);
    return 1 / (1 + ks + std::sqrt(ks * (ks + 2)));  // Kubelka–Munk R∞, in the form without cancellation
}

}  // namespace foretone::learn
