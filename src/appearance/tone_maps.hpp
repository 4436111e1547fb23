#pragma once
// Maps of a board, as means over it take them.

#include <span>

namespace foretone::appearance {

/// Throws std::invalid_argument for maps of two lengths or none; uptake and pore may be empty.
void check_maps(std::span<const float> shade, std::span<const float> uptake, std::span<const float> pore);

}  // namespace foretone::appearance
