#pragma once
/// What the order rules found, as lines for a terminal.

#include <string>
#include <vector>

#include "foretone/schedule/order_rules.hpp"

namespace foretone::cli {

/// Three lines a finding: what, why with how sure, what mends it. Empty if nothing was found.
std::string findings_text(const std::vector<schedule::Finding>& findings);

/// The same under the finish's name.
std::string findings_text(const std::string& name, const std::vector<schedule::Finding>& findings);

/// A finish's name for a table, marked if its schedule will not hold.
std::string marked(const std::string& name, const std::vector<schedule::Finding>& findings);

}  // namespace foretone::cli
