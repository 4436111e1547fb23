#pragma once
/// Reads measured boards from any text that holds them.

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

enum class Format { cgats, csv, lab_list, cxf, argyll, unknown };

/// What the text seems to be, by its first lines; nothing is refused.
Format format_of(std::string_view text);

/// Does a comment of the text state a scale, a quantity or a filter, which a plain pair of columns leaves open?
bool states_more(std::string_view text);

/// Reads CGATS, CSV, a list of Lab values, CxF3 or what `spotread` prints, whichever the text is. Throws Refused
/// format-unknown naming them, and
/// as the format's reader.
Readings read(std::string_view text, const Options& stated = {});

}  // namespace foretone::measure
