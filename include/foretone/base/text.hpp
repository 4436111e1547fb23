#pragma once
/// Small work on text: UTF-8, told by bytes; letters are those of ASCII, whatever the locale.

#include <string>
#include <string_view>
#include <vector>

namespace foretone::base {

/// The words with `between` after each but the last, and `before_last` in place of the last `between`:
/// joined({"a", "b", "c"}, ", ", " or ") is "a, b or c".
std::string joined(const std::vector<std::string>& words, std::string_view between, std::string_view before_last);
std::string joined(const std::vector<std::string>& words, std::string_view between = ", ");

/// `text` cut at every `at`: one part more than there are cuts.
std::vector<std::string> split(std::string_view text, char at);

/// `text` without what of `blanks` stands at its ends.
std::string_view trimmed(std::string_view text, std::string_view blanks = " \t");

/// A to Z become a to z, and a to z become A to Z.
char lower(char c);
char upper(char c);
std::string lower(std::string_view text);
std::string upper(std::string_view text);

/// Every `from` (not empty) replaced, from left to right.
std::string replaced(std::string_view text, std::string_view from, std::string_view to);

/// Text between XML or HTML tags or in a quoted attribute: & < > " ' escaped, control characters become blanks.
std::string xml_escaped(std::string_view text);

/// The text on one line: a line break or another control character (base/utf8.hpp) is a blank.
std::string one_line(std::string_view text);

/// A TOML basic string with its quotes: quote, backslash and control characters escaped.
std::string toml_quoted(std::string_view text);

}  // namespace foretone::base
