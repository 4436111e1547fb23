#pragma once
/// How likely a client sees a difference.

#include <vector>

#include "foretone/color/lab.hpp"

namespace foretone::search {

/// ΔE00 above which most people see a difference side by side (common practice).
inline constexpr double client_sees_de00 = 2;

/// Share, 0–1, of equally likely colors (appearance::Spread::finished of one light) that lie more than ΔE00 `threshold`
/// from the target. Throws std::invalid_argument if there are none.
double chance_beyond(double threshold, const color::Lab& target, const std::vector<color::Lab>& draws);

}  // namespace foretone::search
