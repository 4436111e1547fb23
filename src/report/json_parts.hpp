#pragma once
// Values that several of the JSON outputs hold.

#include <nlohmann/json.hpp>

#include "foretone/color/lab.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::report {

using Json = nlohmann::ordered_json;

/// [L*, a*, b*]
inline Json lab_json(const color::Lab& c) { return {c.l, c.a, c.b}; }

/// [{id, where, text}]
Json warnings_json(const std::vector<scene::Problem>& list);

}  // namespace foretone::report
