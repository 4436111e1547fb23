#pragma once
// What cairo does not write into a PDF: which colors its numbers mean.

#include <cstdint>
#include <string>
#include <vector>

namespace foretone::print {

/// The sRGB profile (ICC.1:2001-04, version 2), the same bytes every time.
std::string srgb_profile();

/// `pdf`, as cairo writes it (PDF 1.4, one table of objects), with an sRGB output intent, `title` and this program's
/// name in its description, and without dates. Throws std::logic_error for a file that is not laid out so.
std::vector<std::uint8_t> with_output_intent(const std::string& pdf, const std::string& title);

}  // namespace foretone::print
