#pragma once
/// Angles: radians in kernels, degrees in names that end in `_deg`.

#include <numbers>

namespace foretone::base {

/// One degree in radians.
inline constexpr double degree = std::numbers::pi / 180;

}  // namespace foretone::base
