#pragma once
/// What the finished board may turn out as: for each light a strip of colors over a bar of the computed one.

#include <string>
#include <vector>

#include "foretone/layout/step_board.hpp"
#include "page.hpp"

namespace foretone::layout {

/// Plausible colors in one strip.
inline constexpr std::size_t most_plausible = 48;

/// Places the strips of `board` from `y` on, in line with fields that begin `gutter` pixels in; returns where they end.
/// Nothing if `plausible` is empty.
int add_plausible(Page& page, int y, int gutter, const StepBoard& board);

/// Throws std::invalid_argument, opening with `here`: not one strip a light, or a strip without 1–48 colors.
void check_plausible(const StepBoard& board, const std::string& here);

}  // namespace foretone::layout
