#pragma once
/// Text as files come: any line ends, marks and encodings, brought to clean UTF-8 lines; what was done is noted.

#include <string>
#include <string_view>
#include <vector>

#include "foretone/base/text.hpp"
#include "foretone/measure/reading.hpp"
#include "notes.hpp"

namespace foretone::measure {

struct Line {
    std::string_view text;
    std::size_t number;  ///< from 1
};

/// The lines and the text that they look into. Not copied, so that the views stay good.
struct Lines {
    Lines() = default;
    Lines(const Lines&) = delete;
    Lines& operator=(const Lines&) = delete;
    std::string text;
    std::vector<Line> list;
};

/// Throws Refused: text-too-large and lines-too-many before memory is taken, text-utf16, text-zipped, text-binary,
/// text-empty. Notes: byte-order-mark, line-ends, text-not-utf8, blank-unusual.
void clean(std::string_view text, const Options& options, Notes& notes, Lines& out);

/// Bytes of the character at `at`, 0 if it is not UTF-8.
std::size_t utf8_length(std::string_view text, std::size_t at);

/// Number of characters of UTF-8 text.
std::size_t characters(std::string_view text);

using base::lower;
using base::trimmed;

/// `text` fit for a message: at most 40 characters, whole ones.
std::string shortened(std::string_view text);

}  // namespace foretone::measure
