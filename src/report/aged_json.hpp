#pragma once
// What a finish is like after some time, as JSON.

#include <functional>

#include "foretone/job/aged.hpp"
#include "json_values.hpp"

namespace foretone::report {

/// [{"after", "days", "exposure", "dose", "reflectance", "colors": [...], "parts_dE00": {"wood", "film", "dye"},
/// "rests_on"}]; `color` writes one color.
Json aged_json(const std::vector<job::SeenAge>& aged, const std::function<Json(const job::SeenColor&)>& color);

}  // namespace foretone::report
