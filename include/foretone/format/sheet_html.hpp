#pragma once
/// A laid-out sheet as one HTML file: no script, nothing from outside, and exactly one printed page.

#include <span>
#include <string>
#include <string_view>

#include "foretone/layout/sheet.hpp"

namespace foretone::format {

/// The paper the file prints on.
struct PrintedOn {
    std::string_view css;  ///< as style sheets name it: "A4", "letter"
    double width_mm = 0, height_mm = 0;
};

/// The sheet as HTML. Everything stands where it stands on the sheet, whatever typeface the reader has: each line of
/// text is told how long it is. Pictures are embedded; a policy in the head forbids scripts and everything from
/// outside. All text is escaped; invisible format characters are left out, as on the picture.
std::string sheet_html(const layout::Sheet& sheet, const PrintedOn& paper);

/// Several sheets of one paper, a printed page each, under the title of the first.
std::string sheets_html(std::span<const layout::Sheet> sheets, const PrintedOn& paper);

/// A page up to its <body>: its title (escaped here), its style, what wrote it, and a policy that forbids scripts and
/// everything from outside.
std::string html_head(std::string_view title, std::string_view style);

/// Text made safe inside HTML, quotes included: no control or invisible format characters, valid UTF-8.
std::string safe_text(std::string_view text);

/// RFC 4648 base 64, padded.
std::string base64(const std::vector<std::uint8_t>& bytes);

}  // namespace foretone::format
