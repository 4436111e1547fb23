#pragma once
/// How sure a finish's color is, and what to measure next, in words.

#include <string>

#include "foretone/job/preview.hpp"

namespace foretone::report {

/// "±3.6 under D65: ±3.4 by what your materials are, ±1.3 by what boards and coats do".
std::string sureness_text(const job::SeenFinish& finish, std::size_t light);

/// How far boards may differ, without a figure, under the light where they differ most: "Boards may differ plainly,
/// mostly lighter or darker".
std::string spread_words(const job::SeenStage& finished);

/// "one step board would bring this from ±3.6 to about ±1.7; reading the board after step 1, coat 1 alone, to about
/// ±2.4". Says that measuring hardly helps where it does not.
std::string measure_next_text(const std::vector<std::string>& readings, const search::NextReadings& next);

/// What could be read, in words: "the bare wood and the board after step 2, coat 1".
std::string readings_text(const std::vector<std::string>& readings, const search::NextReading& reading);

}  // namespace foretone::report
