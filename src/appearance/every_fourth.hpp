#pragma once
// A solver asked at every fourth wavelength of the grid.

#include "foretone/appearance/render.hpp"

namespace foretone::appearance {

/// `solver`, asked at 380, 400, … 780 nm alone; in between the answer is interpolated (cubic). Dyes, films and woods
/// are smooth over 20 nm: colors come out within ΔE00 0.05 of the full solve, differences of two of them within 0.02
/// (a test says so), for less than half of the time. For draws, which are told apart by far more. Refers to `solver`.
Solver every_fourth(const Solver& solver);

}  // namespace foretone::appearance
