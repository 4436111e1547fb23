// Modes of a scattering medium.
//
// With S = 1/µ − a·odd = LLᵀ and D = 1/µ − a·even, s″ = S D s; s = L u makes it u″ = (LᵀDL)u, a symmetric non-negative
// problem with eigenvalues γ². Rounding in γ² is about 1e-16 of the largest, 1/µ² of the most grazing stream: far too
// much for the smallest eigenvalue of a medium that hardly absorbs, which is what decides how white it is. But D
// applied to isotropic light v is known without subtraction, b·v/µ. So a reflection first turns L⁻¹v into the first
// coordinate, whose row and column are then written from b: with b = 0 they vanish, and white stays exactly white
// however thick the layer.

#include "angular_modes.hpp"

#include <cmath>

namespace foretone::optics::angular_detail {

void ModeSolver::reflect_rows(Eigen::MatrixXd& m) {
    row_.noalias() = mirror_.transpose() * m;
    m.noalias() -= mirror_ * row_;
}

const Modes& ModeSolver::solve(const Scattering& medium, double a, double b) {
    for (const Found& f : found_)
        if (f.medium == &medium && f.a == a && f.b == b) return f.modes;
    Found& place = found_[next_++ % found_.size()];
    place.medium = nullptr;  // not to be found if what follows throws
    find(medium, a, b, place.modes);
    place.a = a, place.b = b, place.medium = &medium;
    return place.modes;
}

void ModeSolver::find(const Scattering& medium, double a, double b, Modes& modes) {
    part_ = -a * medium.odd;
    part_.diagonal() += medium.inverse_cosine;
    cholesky_.compute(part_);
    lower_ = cholesky_.matrixL();
    const auto lower = lower_.triangularView<Eigen::Lower>();
    const auto upper = lower_.transpose().triangularView<Eigen::Upper>();

    part_ = -a * medium.even;
    part_.diagonal() += medium.inverse_cosine;
    product_.noalias() = part_ * lower;
    part_.noalias() = upper * product_;  // LᵀDL

    column_ = lower.solve(medium.root_flux);
    const double length = column_.norm();
    mirror_ = column_ / length;
    const double turned = mirror_(0) > 0 ? -1 : 1;  // the reflection takes L⁻¹v/length to turned·(1, 0, …)
    mirror_(0) -= turned;
    mirror_ *= std::sqrt(2.0) / mirror_.norm();
    column_ = upper * (medium.root_flux.cwiseProduct(medium.inverse_cosine) * (turned * b / length));
    column_ -= mirror_ * mirror_.dot(column_);

    reflect_rows(part_);
    part_.transposeInPlace();
    reflect_rows(part_);
    part_.col(0) = column_;
    part_.row(0) = column_.transpose();
    eigen_.compute(part_);

    modes.rate = eigen_.eigenvalues().cwiseMax(0).cwiseSqrt();
    product_ = eigen_.eigenvectors();
    reflect_rows(product_);
    modes.to_s.noalias() = lower * product_;
    modes.to_d = product_;
    upper.solveInPlace(modes.to_d);
}

}  // namespace foretone::optics::angular_detail
