#pragma once
// Values that several of the JSON outputs hold.

#include <nlohmann/json.hpp>

#include "foretone/color/lab.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/search/next_reading.hpp"

namespace foretone::report {

using Json = nlohmann::ordered_json;

/// [L*, a*, b*]
inline Json lab_json(const color::Lab& c) { return {c.l, c.a, c.b}; }

/// [{id, where, text}]
Json warnings_json(const std::vector<scene::Problem>& list);

/// What to measure next: in words, and as the spread now, that of boards, and that after one, two or all readings.
Json measure_next_json(const std::vector<std::string>& readings, const search::NextReadings& next);

}  // namespace foretone::report
