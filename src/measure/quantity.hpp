#pragma once
/// What was read, if it was no reflectance: absorbance, transmittance, light through polarizing filters.

#include <string_view>

#include "cells.hpp"

namespace foretone::measure {

/// How values become reflectances.
enum class Quantity {
    reflectance,
    log_one_over_r  ///< apparent absorbance, log10(1/R): R = 10^-A
};

/// What a heading or a word calls its values; `reflectance` if it says nothing else. "log(1/R)" and "apparent
/// absorbance" can be worked back. Throws Refused `not-reflectance` for absorbance that does not say of what (a
/// liquid's is no board's), for transmittance, density and K/S.
Quantity quantity_said(std::string_view words, const Cell& where);

/// The same for what a file says of itself, by key ("quantity", "MEASUREMENT_TYPE" …): also Refused `polarized` for
/// readings through polarizing filters (M3), which take the surface's light away.
void refuse_other_readings(std::string_view key, const Cell& value);

}  // namespace foretone::measure
