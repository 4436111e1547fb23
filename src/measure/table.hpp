#pragma once
/// A table with one sample a row: from headings and rows of cells to readings.

#include <vector>

#include "raw.hpp"

namespace foretone::measure {

struct Table {
    std::vector<Cell> headings;
    std::vector<std::vector<Cell>> rows;  ///< each as long as `headings`
};

/// What the headings promise.
struct Promise {
    std::size_t wavelengths = 0;
    bool pairs = false, lab = false, xyz = false, delta = false;
    bool any() const { return wavelengths > 0 || pairs || lab || xyz || delta; }
};
Promise promise(const std::vector<Cell>& headings, bool plain_numbers);

/// Throws Refused column-twice if a heading is there again (wavelengths are judged with their values).
void refuse_twice(const std::vector<Cell>& headings, bool plain_numbers);

/// Readings of the table under `conditions`. Wavelength columns, wavelength–reflectance pairs (one pair alone: a row a
/// wavelength), Lab and XYZ columns; all others become tags. Throws Refused column-twice, pair-broken, wavelength-bad,
/// and as Numbers.
RawTable read_columns(const Table& table, const Conditions& conditions, bool plain_numbers, Numbers& numbers,
                      Notes& notes);

}  // namespace foretone::measure
