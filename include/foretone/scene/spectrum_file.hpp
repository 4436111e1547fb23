#pragma once
/// Two-column spectra as text: `# comments`, a header, rows of wavelength and value.

#include <string>
#include <string_view>
#include <vector>

#include "foretone/spectral/sampled.hpp"

namespace foretone::scene {

/// A numeric table with named columns; comments as read, without the "# ".
struct NumberTable {
    std::vector<std::string> comments;
    std::vector<std::string> columns;
    std::vector<std::vector<double>> rows;
    std::vector<std::size_t> lines;  ///< line of each row in the file
};

/// Reads comma-separated numbers under a header that must be `columns`. Throws InputError with line and column: a
/// missing or other header, a wrong number of cells, text that is no number, NaN or infinity, wavelengths (first
/// column) that do not rise.
NumberTable read_table(std::string_view text, const std::string& file, const std::vector<std::string>& columns);

/// A reflectance, `wavelength_nm,reflectance`: fractions 0–1, covering at least 400–700 nm at 20 nm or finer. Throws
/// InputError as `read_table`, and for values below 0 or above 1 (percent is told apart from a slip), too short a
/// range, too coarse a step.
spectral::Sampled read_reflectance(std::string_view text, const std::string& file);

}  // namespace foretone::scene
