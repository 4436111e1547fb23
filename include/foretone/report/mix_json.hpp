#pragma once
/// What `mix` answers, as JSON.

#include <string>

#include "foretone/job/mix.hpp"

namespace foretone::report {

/// {tool, title, values: [{key, value, unit}], formulas, notes, cautions: [{id, text}]}; the standing cautions are
/// among them.
std::string mix_json(const job::MixAnswer& answer);

}  // namespace foretone::report
