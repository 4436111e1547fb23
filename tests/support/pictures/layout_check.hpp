#pragma once
/// What every laid-out page must satisfy.

#include <string>

#include "foretone/layout/sheet.hpp"

namespace foretone::test {

/// Empty if nothing leaves the margins, no two texts overlap, no text lies on a field and no two fields overlap; else
/// what does.
std::string layout_fault(const layout::Sheet& sheet);

/// How many lines hold `part`.
std::size_t lines_with(const layout::Sheet& sheet, const std::string& part);

}  // namespace foretone::test
