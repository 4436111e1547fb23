#pragma once
/// Who made a result, the same in every output.

#include <nlohmann/json.hpp>
#include <string>

#include "foretone/scene/version.hpp"

namespace foretone::report {

/// {name, version, solver}, the last where colors were worked out.
inline nlohmann::ordered_json tool_json(const std::string& solver = "") {
    nlohmann::ordered_json out = {{"name", "foretone"}, {"version", scene::version}};
    if (!solver.empty()) out["solver"] = solver;
    return out;
}

}  // namespace foretone::report
