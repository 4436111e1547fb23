#pragma once
/// A plain list of Lab values.

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

/// Reads lines of a name and three numbers L* a* b*, separated by tabs, ';', ',' or blanks (the name may hold blanks),
/// with or without the heading "name L a b". Light and observer are stated above, `light: D65`, `observer: 10deg`,
/// `geometry: 45/0` (with or without '#'), or by `stated`. Throws Refused: lab-line (a line is no name and three
/// numbers), lab-ambiguous (numbers alone between commas), light-missing, lab-range ...
Readings read_lab_list(std::string_view text, const Options& stated = {});

}  // namespace foretone::measure
