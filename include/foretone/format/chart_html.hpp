#pragma once
/// The color chart as an HTML file that prints at its true size.

#include <string>

namespace foretone::format {

/// One page; `paper` as style sheets name it: "A4" or "letter".
std::string chart_html(const std::string& paper);

}  // namespace foretone::format
