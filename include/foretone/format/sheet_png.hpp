#pragma once
/// A page as a PNG file.

#include "foretone/layout/sheet.hpp"

namespace foretone::format {

/// The page as a PNG file with its size on paper and its title.
std::vector<std::uint8_t> sheet_png(const layout::Sheet& sheet);

}  // namespace foretone::format
