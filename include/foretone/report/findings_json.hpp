#pragma once
/// Findings and cautions as JSON values, the same in every output.

#include <nlohmann/json.hpp>

#include "foretone/job/cautions.hpp"
#include "foretone/schedule/order_rules.hpp"

namespace foretone::report {

/// [{id, severity, step (from 1), under, over, what, why, sure, mends: [{do, material, days, text}]}]
nlohmann::ordered_json findings_json(const std::vector<schedule::Finding>& findings);

/// [{id, text}] for `words` and the standing ones.
nlohmann::ordered_json cautions_json(const std::vector<std::string>& words);

}  // namespace foretone::report
