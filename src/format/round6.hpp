#pragma once
// Six decimals: what material files carry, well below any step a renderer keeps.

#include <cmath>

#include "foretone/format/surface.hpp"

namespace foretone::format {

inline double round6(double v) { return std::round(v * 1e6) / 1e6 + 0.0; }
inline Rgb round6(const Rgb& v) { return {round6(v[0]), round6(v[1]), round6(v[2])}; }

}  // namespace foretone::format
