#pragma once
/// Readings while they are read: values as written, with their places, before scale and conditions are settled.

#include <vector>

#include "conditions.hpp"

namespace foretone::measure {

struct Sample {
    double nm = 0, value = 0;
    std::size_t line = 0, column = 0;
    bool percent_sign = false;
};

struct RawReading {
    Reading reading;
    Conditions conditions;
    std::vector<Sample> samples;  ///< of its reflectance; empty if it has none
};

/// Readings of one table: they share a scale.
struct RawTable {
    std::vector<RawReading> readings;
    std::optional<bool> percent;                 ///< as the table's own words say
    std::size_t said_line = 0, said_column = 0;  ///< where
};

/// How a reader's file states what was missing, for messages.
struct HowToSay {
    std::string light;  ///< "add the lines '# light: D65' and '# observer: 2deg'"
    std::string scale;
};

/// Settles scale, wavelengths, light, observer and geometry, and appends to `out`.
///
/// Percent or fraction: by the user's word (noted if the file says otherwise), else the file's, else by the values if
/// they leave no doubt (noted): a largest value above 2 cannot be a fraction, one of at most 1 cannot be percent,
/// because no board is that dark. Between, and where values contradict the file's words, Refused: scale-ambiguous,
/// scale-contradicts, scale-mixed.
///
/// Reflectances: 400–700 nm must be covered at 20 nm or finer (spectrum-range-nm, spectrum-coarse), each wavelength
/// once (wavelength-twice); falling wavelengths are turned (note wavelengths-sorted). Fractions from −0.005 to 0 and
/// from 1 to 1.02 are instrument noise and become 0 and 1 (note reflectance-clipped); others outside 0–1 are refused
/// (reflectance-range).
///
/// Lab and XYZ need light and observer: light-missing; beside a reflectance they are left out instead (note
/// lab-light-unknown). lab-range: L outside 0–100 or a, b beyond ±150. xyz-range: below 0 or above 130. XYZ of which no
/// Y exceeds 1.2 is on the scale Y = 1 (note xyz-scale).
void settle(RawTable&& table, const Options& options, const HowToSay& say, Notes& notes, std::vector<Reading>& out);

}  // namespace foretone::measure
