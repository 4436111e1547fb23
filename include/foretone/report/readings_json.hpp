#pragma once
/// Readings of boards as JSON.

#include <string>
#include <vector>

#include "foretone/measure/reading.hpp"

namespace foretone::report {

/// {"tool", "file", "readings": [{"name", "light", "observer", "Lab", "reflectance": {"wavelengths_nm", "values"}}]}.
std::string readings_json(const std::string& file, const std::vector<measure::Reading>& readings);

}  // namespace foretone::report
