#pragma once
// Text inside XML.

#include <string>
#include <string_view>

namespace foretone::format {

/// As an attribute's value or element's text: the five reserved characters as entities, control characters as blanks.
std::string xml_text(std::string_view text);

/// Inside a comment: "--" parted, no '-' at the end, control characters but line ends as blanks.
std::string xml_comment(std::string_view text);

/// As a name: ASCII letters, digits and '_', not beginning with a digit; everything else becomes '_', nothing becomes
/// "material".
std::string xml_name(std::string_view text);

}  // namespace foretone::format
