#pragma once
// One finish, stage by stage, as JSON.

#include "foretone/job/preview.hpp"
#include "json_values.hpp"

namespace foretone::report {

/// With what it may turn out as, if `with_spread`.
Json seen_color_json(const job::SeenColor& c, const std::string& observer, const std::string& geometry,
                     bool with_spread);

/// {"name", "stages": [...], ...}; "measure_next" if `with_next`, "end_grain" and "aged" where the finish has them.
Json finish_json(const job::SeenFinish& f, const scene::Look& look, bool with_next = true);

}  // namespace foretone::report
