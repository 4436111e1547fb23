#pragma once
/// How the reflectance of one wood differs: of the shop's stock from the file's, and of one board from the next.

#include <vector>

#include "foretone/color/xyz.hpp"
#include "foretone/material/material.hpp"

namespace foretone::appearance {

/// ΔE*ab, one standard deviation, of one board of a wood from the next (common practice: boards vary by 2 to 4).
inline constexpr double wood_board_de = 2.0;

/// Curves of ln(K/S), each one standard deviation of an independent normal amplitude.
struct WoodShapes {
    std::vector<spectral::Spectrum> stock;  ///< what the shop's stock of this wood is, against the file
    std::vector<spectral::Spectrum> board;  ///< one board of it against the next
};

/// ΔE*ab under `weights`, one standard deviation, that the file's `sd` of a reflectance stands for: sd (L* + 16)/3.
double whole_de(const material::Wood& wood, const color::Weights& weights);

/// Of that, what one board differs from the next by: `board_de` (≥ 0), but at most half of the variance, so that a sure
/// reading stays sure.
double boards_part_de(const material::Wood& wood, const color::Weights& weights, double board_de);

/// The curves of `wood`: a level, a tilt and a bend of each. Together they move the bare color under `weights` by
/// `whole_de`, of which boards_part_de is the boards'; with `same_board` there is no such part.
WoodShapes wood_shapes(const material::Wood& wood, const color::Weights& weights, double board_de, bool same_board);

/// Only the boards' part, exactly `de` (≥ 0) by ΔE*ab.
std::vector<spectral::Spectrum> board_shapes(const material::Wood& wood, const color::Weights& weights, double de);

/// The reflectance, 0–1, with `shift` added to ln(K/S) of it as a half-space.
double with_body_shift(double reflectance, double shift);

}  // namespace foretone::appearance
