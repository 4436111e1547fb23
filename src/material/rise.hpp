#pragma once
// Saturation.

#include <cmath>

namespace foretone::material {

/// 1 − e^(−x): 0 at 0, towards 1.
inline double rise(double x) { return -std::expm1(-x); }

}  // namespace foretone::material
