#pragma once
/// One board under a light that is carried along it: what figure does that no flat color shows.

#include <functional>
#include <span>

#include "foretone/light/board.hpp"

namespace foretone::layout {

/// Where the light stands in each step, degrees along the grain, left to right.
inline constexpr double tilt_steps[] = {-36, -24, -12, 0, 12, 24, 36};

/// The same strip of wood seven times, from the top: the light at the left end, …, at the right. Each strip is the
/// maps' middle, cut to a seventh of 1.2 times their height, at least 24 pixels; every step is labelled in the margin
/// on its left.
light::Image tilt_strip(const grain::Maps& maps, const light::Finished& finished, int threads = 0);

/// Of a board that is not held: `rows` gives its rows [first, end) as maps of their own, `take` gets the picture's rows
/// from the top; its size is that of `tilt_size`.
void tilt_strip(int width, int height, double mm_per_px,
                const std::function<void(grain::Maps& maps, int first, int end)>& rows, const light::Finished& finished,
                const std::function<void(std::span<const std::uint8_t> rgb)>& take, int threads = 0);

/// Of the picture for a board of that many pixels; x and y are 0.
light::Box tilt_size(int width, int height);

}  // namespace foretone::layout
