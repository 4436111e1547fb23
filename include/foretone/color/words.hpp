#pragma once
/// A color difference in plain words.

#include <string>

#include "foretone/color/lab.hpp"

namespace foretone::color {

/// Below this ΔE00 a difference is called not visible, whatever its direction.
inline constexpr double visible_de00 = 0.5;

/// Steps of ΔL*, Δa*, Δb* and ΔC* at which a direction is named: not at all below the first, "slightly" up to the
/// second, plain up to the third, "much" from there on.
inline constexpr double word_slightly = 0.5, word_plain = 1.5, word_much = 5.0;

/// What changes from `from` to `to`: lighter/darker (ΔL*), redder/greener (Δa*), yellower/bluer (Δb*), more/less
/// saturated (ΔC*), in this order, joined by commas: "darker, slightly redder, much more saturated". "no visible
/// difference" if ΔE00 < `visible_de00`; "barely different" if it is larger but no direction reaches `word_slightly`.
/// The thresholds are common practice, not a standard.
std::string describe(const Lab& from, const Lab& to);

}  // namespace foretone::color
