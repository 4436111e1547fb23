#pragma once
/// A photographed chart as JSON.

#include <string>

#include "foretone/job/chart.hpp"

namespace foretone::report {

/// `file` holds the readings; empty if there are none.
std::string chart_json(const job::ChartReading& reading, const std::string& file);

}  // namespace foretone::report
