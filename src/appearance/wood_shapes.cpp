// Symbols: R reading · K/S = (1 − R)²/2R of it as a half-space · t = (λ − 560 nm)/180 nm · a amplitudes, standard
// normal.
//   ln(K/S)′ = ln(K/S) + a_l s_l + a_t s_t t + a_b s_b t²
//
// Why ln(K/S): woods of one species differ by how much they hold of what absorbs, which multiplies K; a share of R
// would take a pale board beyond 1. Most of the variance is paler or darker as a whole, a smaller part warmer or
// cooler, and a bend: level, tilt and bend as 10 : 5 : 3 from board to board and as 2 : 1 : 1 of the stock (a choice;
// no published set of one species' spectra was at hand). A move of a curve by a tenth of its size is a small one, so
// its ΔE*ab is in proportion: one scale brings all three to the ΔE that is wanted.

#include "foretone/appearance/wood_shapes.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "foretone/color/lab.hpp"

namespace foretone::appearance {
namespace {
using spectral::Spectrum;

color::Lab lab_of(const Spectrum& r, const color::Weights& w) { return color::to_lab(color::xyz(r, w), w.white); }

std::vector<Spectrum> scaled_to(double de, std::array<double, 3> sizes, const Spectrum& reflectance,
                                const color::Weights& w) {
    if (de <= 0) return {};
    std::vector<Spectrum> out;
    const auto base = lab_of(reflectance, w);
    double squares = 0;
    for (int power = 0; power < 3; ++power) {
        Spectrum curve, moved;
        for (std::size_t i = 0; i < curve.size(); ++i) {
            curve[i] = sizes[static_cast<std::size_t>(power)] * std::pow((spectral::grid_nm(i) - 560) / 180, power);
            moved[i] = with_body_shift(reflectance[i], 0.1 * curve[i]);
        }
        const double off = color::delta_e_ab(base, lab_of(moved, w)) / 0.1;
        squares += off * off;
        out.push_back(curve);
    }
    for (auto& curve : out)
        for (double& v : curve.values) v *= de / std::sqrt(squares);
    return out;
}

}  // namespace

double with_body_shift(double reflectance, double shift) {
    const double ks = (1 - reflectance) * (1 - reflectance) / (2 * reflectance) * std::exp(shift);
    return 1 / (1 + ks + std::sqrt(ks * (ks + 2)));  // R∞ in the form without cancellation
}

std::vector<Spectrum> board_shapes(const material::Wood& wood, const color::Weights& weights, double de) {
    return scaled_to(de, {0.1, 0.05, 0.03}, wood.reflectance.values, weights);
}

double whole_de(const material::Wood& wood, const color::Weights& weights) {
    return wood.reflectance.sd * (lab_of(wood.reflectance.values, weights).l + 16) / 3;
}

double boards_part_de(const material::Wood& wood, const color::Weights& weights, double board_de) {
    return std::min(board_de, whole_de(wood, weights) * std::sqrt(0.5));
}

WoodShapes wood_shapes(const material::Wood& wood, const color::Weights& weights, double board_de, bool same_board) {
    const double whole = whole_de(wood, weights);
    const double board = same_board ? 0 : boards_part_de(wood, weights, board_de);
    const double stock = std::sqrt(whole * whole - board * board);
    return {scaled_to(stock, {0.1, 0.05, 0.05}, wood.reflectance.values, weights), board_shapes(wood, weights, board)};
}

}  // namespace foretone::appearance
