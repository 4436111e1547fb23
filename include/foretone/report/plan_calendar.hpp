#pragma once
/// A plan's coats as appointments.

#include <string>

#include "foretone/job/plan.hpp"

namespace foretone::report {

/// An iCalendar file (RFC 5545): half an hour for each coat, with what is done first and how long to wait, and the
/// moment the last is dry. Times are the shop's own clock, without a zone. Empty if the plan has no start.
std::string plan_calendar(const job::Plan& plan);

}  // namespace foretone::report
