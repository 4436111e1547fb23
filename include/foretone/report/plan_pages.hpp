#pragma once
/// What the bench card and the labels say, laid out without a browser.

#include "foretone/job/plan.hpp"
#include "foretone/layout/card.hpp"

namespace foretone::report {

/// The card of `plan_card`, for pages.
layout::Card plan_card_page(const job::Plan& plan);

/// By page: a jar for each step that is mixed, then one board or more, until the last page is full.
std::vector<std::vector<layout::Sticker>> plan_stickers(const job::Plan& plan, layout::Paper paper);

}  // namespace foretone::report
