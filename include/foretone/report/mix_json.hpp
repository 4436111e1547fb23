#pragma once
/// What `mix` answers, as JSON.

#include <nlohmann/json.hpp>

#include "foretone/job/mix.hpp"

namespace foretone::report {

/// {tool, title, values: [{key, value, unit}], formulas, notes, cautions: [{id, text}]}; the standing cautions are
/// among them.
nlohmann::ordered_json mix_json(const job::MixAnswer& answer);

}  // namespace foretone::report
