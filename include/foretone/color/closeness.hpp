#pragma once
/// How near one color comes to another that it should match, as a verdict in words.

#include <array>
#include <string_view>

namespace foretone::color {

/// ΔE00 from which a match is no longer called as good as its target, near it, or merely off it. Common practice of
/// the trade, not a standard: about 1 is the least that a trained eye tells side by side, about 2 what a client tells.
inline constexpr std::array<double, 3> closeness_de00 = {1, 2, 5};

/// "as good as the target" below the first of `closeness_de00`, "near the target" below the second, "off the target"
/// below the third, else "far from the target" (also for what is not a number).
std::string_view closeness(double de00);

}  // namespace foretone::color
