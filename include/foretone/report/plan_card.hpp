#pragma once
/// The bench card of a plan.

#include "foretone/job/plan.hpp"

namespace foretone::report {

/// One self-contained page that prints: steps, amounts, timeline, findings, cautions and the label for the back of the
/// board. All text is escaped.
std::string plan_card(const job::Plan& plan);

/// Text made safe inside HTML, quotes included.
std::string html_text(const std::string& text);

}  // namespace foretone::report
