#pragma once
/// CGATS.17 text (the same as ISO 28178): the tables that color instruments and color libraries exchange.

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

/// Reads all tables of a CGATS text. A table with neither reflectances, Lab nor XYZ is left out (note table-skipped).
/// Sizes come from the data: NUMBER_OF_FIELDS and NUMBER_OF_SETS that say otherwise are noted (count-fields,
/// count-sets).
///
/// Known column names, in any case: SPECTRAL_NM_400, SPECTRAL_NM400, NM_400, nm400, R_400, SPEC_400, SPECTRAL_400,
/// 400_NM; SPECTRAL_NM with SPECTRAL_PCT or SPECTRAL_DEC in turn; LAB_L LAB_A LAB_B, XYZ_X XYZ_Y XYZ_Z; SAMPLE_NAME,
/// SAMPLE_ID; STDEV_DE; others become tags. Percent or fraction: by column name, SPECTRAL_NORM, `stated`, or the values
/// if they leave no doubt. Light and observer: by ILLUMINATION_NAME, OBSERVER_ANGLE, WEIGHTING_FUNCTION or
/// MEASUREMENT_SOURCE; geometry: by MEASUREMENT_GEOMETRY. Later tables keep what earlier ones said. Saved by a
/// spreadsheet (separators at the ends of lines, doubled quotes, decimal commas) it is read and noted.
///
/// Throws Refused, whose id is one of: text-*, lines-too-many, fields-too-many, quote-open, quote-after,
/// cgats-format-missing, cgats-format-open, cgats-data-open, cgats-stray, row-cells, row-ambiguous, column-twice,
/// pair-broken, value-missing, number-bad, number-not-finite, decimal-mixed, scale-*, spectrum-*, wavelength-*,
/// reflectance-range, light-*, observer-*, geometry-contradicts, lab-range, xyz-range, spread-range, readings-none.
Readings read_cgats(std::string_view text, const Options& stated = {});

/// What a written file says of itself, beside its readings.
struct CgatsHeader {
    std::string originator;             ///< the program that made it
    std::string descriptor;             ///< one line about the whole
    std::string created;                ///< a date as the user gave it; left out if empty
    std::vector<std::string> comments;  ///< each a line after '#'
};

/// CGATS.17 text of named readings: one table with SAMPLE_ID, SAMPLE_NAME, the tags that any reading has (upper-case;
/// "-" where one has none), and what all readings have: reflectance as fractions to 6 decimals (SPECTRAL_NM_380 ...),
/// XYZ and Lab to 4, STDEV_DE to 3. Light, observer and geometry are said in the header if all readings agree in them.
/// Quotes in names become ', line ends and other control characters a space, and a comment in the file says so: not
/// every reader knows quotes within quotes. Throws std::invalid_argument for: no readings; no quantity that all of them
/// have; wavelengths that differ; Lab or XYZ of different lights or observers.
std::string write_cgats(const Readings& readings, const CgatsHeader& header);

}  // namespace foretone::measure
