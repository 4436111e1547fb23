#pragma once
/// One color as a board shows it.

#include <array>
#include <string>

#include "foretone/light/image.hpp"

namespace foretone::layout {

struct Field {
    light::Code code{};  ///< what is painted
    std::string hex;     ///< "#rrggbb" of `code`; empty: written from it
    std::array<double, 3>
        lab{};  ///< CIELAB under the row's light: L*, a*, b*, of the color itself, not of what the screen shows
    bool in_gamut = true;    ///< false: `code` has less chroma than the color
    double spread_de00 = 0;  ///< one standard deviation, CIEDE2000, ≥ 0
};

}  // namespace foretone::layout
