// Adding one two-port.
//
// In s = x↓ + x↑ and d = x↓ − x↑ a stack is a passive network: d is what goes through, s what drives it. What lies
// below a level is its admittance Z (d = Z s), related to its reflectance by R = (1 − Z)/(1 + Z): black Z = 1, white or
// total reflection 0. A lossless interface of reflectance r is a series resistance 2r/(1 − r); a layer is, in its own
// modes, a piece of transmission line. Putting a two-port on top is
//     Z_t = g + σ (Z⁻¹ + ρ)⁻¹ σ,   (Z⁻¹ + ρ)⁻¹ = Z − Zq (c² + qZq)⁻¹ qZ,   q² = ρ/(1 + ρ),  c² = 1/(1 + ρ),
// which needs one Cholesky factor of a positive matrix of norm about 1, takes any ρ from 0 to beyond total reflection,
// keeps Z symmetric, and multiplies nothing large by anything small: no doubling, no growing exponentials.

#include "angular_adding.hpp"

namespace foretone::optics::angular_detail {

void Adder::add(const TwoPort& port, Below& below) {
    rest_ = (1 + port.series.array()).inverse();
    root_ = (port.series.array() * rest_.array()).sqrt();
    half_.noalias() = root_.asDiagonal() * below.admittance;
    inner_.noalias() = half_ * root_.asDiagonal();
    inner_.diagonal() += rest_;
    cholesky_.compute(inner_);
    cholesky_.matrixL().solveInPlace(half_);
    through_ = root_.cwiseProduct(below.through);
    cholesky_.matrixL().solveInPlace(through_);
    below.through.noalias() -= half_.transpose() * through_;
    below.through.array() *= port.transfer.array();
    below.admittance.noalias() -= half_.transpose() * half_;
    below.admittance.array().colwise() *= port.transfer.array();
    below.admittance.array().rowwise() *= port.transfer.array().transpose();
    below.admittance.diagonal() += port.shunt;
}

}  // namespace foretone::optics::angular_detail
