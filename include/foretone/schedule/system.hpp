#pragma once
/// In whose units results are printed. What is stored, and JSON, is metric always.

#include <optional>
#include <string_view>

namespace foretone::schedule {

enum class UnitSystem { metric, us };

/// "metric" or "us".
constexpr std::string_view word(UnitSystem system) { return system == UnitSystem::us ? "us" : "metric"; }

}  // namespace foretone::schedule
