#pragma once
/// The bench card of a plan.

#include "foretone/job/plan.hpp"
#include "foretone/layout/client_sheet.hpp"

namespace foretone::report {

/// One self-contained page that prints on `paper`: steps, amounts, timeline, findings, cautions and the label for the
/// back of the board. All text is escaped.
std::string plan_card(const job::Plan& plan, layout::Paper paper = layout::Paper::a4);

}  // namespace foretone::report
