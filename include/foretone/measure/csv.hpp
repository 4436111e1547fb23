#pragma once
/// Tables of readings as a spreadsheet saves them.

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

/// Reads separated values in either direction:
/// - wavelengths down: a heading such as wavelength_nm and a column a sample; rows of words above or below the heading
/// are tags of the columns;
/// - across: a row a sample; columns headed by wavelengths (400, nm400, R_400, "400 nm" ...) or by L, a, b or X, Y, Z;
/// others are tags. Separated by ',' or ';' or tabs; decimal point, or comma where the separator is another. `# light:
/// D65` (or light: D65) before the table states a condition: light, observer, geometry, scale (percent or fraction).
/// Rows without a heading, falling wavelengths, empty columns at the end and empty rows are read and noted. Throws
/// Refused: csv-heading (no line is a heading of either direction, with what was looked for), csv-direction (it could
/// be both), row-cells, csv-samples-twice, and as `read_cgats` for values.
Readings read_csv(std::string_view text, const Options& stated = {});

}  // namespace foretone::measure
