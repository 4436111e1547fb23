#pragma once
/// What Argyll's `spotread` prints on a terminal, copied or kept.

#include "foretone/measure/reading.hpp"
#include "text.hpp"

namespace foretone::measure {

/// Does a line begin "Result is XYZ:"?
bool is_argyll_text(const Lines& lines);

/// Is it XML that names CxF?
bool is_cxf(const Lines& lines);

/// Each "Result is XYZ: x y z, D50 Lab: L a b", with the spectrum printed before it if there is one. A line "name: ..."
/// before a result names it. The observer is 2deg unless stated, and that is noted. Throws Refused argyll-result.
Readings read_argyll_text(std::string_view text, const Options& stated = {});

}  // namespace foretone::measure
