#pragma once
/// One board under a light that is carried along it: what figure does that no flat color shows.

#include <vector>

#include "foretone/light/board.hpp"

namespace foretone::layout {

/// Where the light stands in each step, degrees along the grain, left to right.
inline constexpr double tilt_steps[] = {-36, -24, -12, 0, 12, 24, 36};

/// The same strip of wood seven times, from the top: the light at the left end, …, at the right. Each strip is the
/// maps' middle, cut to a seventh of 1.2 times their height, at least 24 pixels; every step is labelled in the margin
/// on its left.
light::Image tilt_strip(const grain::Maps& maps, const light::Finished& finished, int threads = 0);

}  // namespace foretone::layout
