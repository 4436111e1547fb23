#pragma once
/// The color chart as it is printed.

#include "foretone/light/image.hpp"

namespace foretone::layout {

inline constexpr double chart_dpi = 300;

/// 190 × 130 mm: the fields and corner marks where photo/chart.hpp has them, names, what to do with it, and a line of
/// 100 mm to check the print by.
light::Image chart_page();

}  // namespace foretone::layout
