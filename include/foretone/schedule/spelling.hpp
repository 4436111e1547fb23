#pragma once
/// The ways in which people write a unit: one table, for every verb that reads an amount.

#include <cstddef>
#include <string_view>
#include <vector>

#include "foretone/schedule/measure.hpp"

namespace foretone::schedule {

/// A unit by its own name and the other ways to write it, separated by ';'. Case, blanks, points and dashes between
/// letters do not count, nor whether a square is 2, ^2 or ².
struct Spellings {
    std::string_view unit, written;
};
const std::vector<Spellings>& spellings();

/// The unit of `dimension` that `written` means, none if there is none.
const Unit* unit_called(std::string_view written, Dimension dimension);

/// The number that an amount begins with, and how many bytes it takes: "2.5", "1/2", "1 1/2", "½", "1½".
struct ReadNumber {
    double value = 0;
    std::size_t length = 0;  ///< 0: there is none
    bool out_of_range = false;
    bool comma = false;  ///< a comma stands where a decimal point is due, or between thousands
};
ReadNumber number_before_unit(std::string_view text);

}  // namespace foretone::schedule
