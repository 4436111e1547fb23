#pragma once
/// Labels for jars and for the backs of boards.

#include <string>

#include "foretone/job/plan.hpp"
#include "foretone/layout/client_sheet.hpp"

namespace foretone::report {

/// Sheets of stickers (A4: 14 of 99.1 × 38.1 mm; Letter: 10 of 4 × 2 in) as HTML, as many as it takes: a jar for each
/// step that is mixed, then boards, at least one, until the last sheet is full.
std::string plan_labels(const job::Plan& plan, layout::Paper paper);

}  // namespace foretone::report
