#pragma once
/// How even a state of a board is, in one number.

#include <array>

#include "foretone/appearance/render.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::appearance {

/// Uptake of the tenth of the spots that takes least and of the tenth that takes most, where ln(uptake) is normal with
/// standard deviation `blotch` and the mean of uptake is 1: exp(±1.7550 · blotch − blotch²/2), as the mean of a normal
/// deviate over its outer tenth is 1.7550.
std::array<double, 2> outer_tenths(double blotch);

/// What the two tenths of a board read like, the one that takes least first.
using Tenths = std::array<SplitReflectance, 2>;

/// `board` is the mean board. A wood without grain figures has no blotch: both tenths are then the board itself.
Tenths tenths(const Board& board, const material::Wood& wood, optics::Geometry geometry, const Solver& solver);

/// ΔE00 between the two under a light.
double uneven_de00(const Tenths& tenths, const color::Weights& light);

/// A word for it: even (below 1), slightly uneven (below 2), uneven (below 4), blotchy. Steps at what is not seen, seen
/// beside each other, seen at a glance (common practice of ΔE00 in trade).
std::string_view uneven_word(double de00);

}  // namespace foretone::appearance
