#pragma once
/// The account of a coat as JSON.

#include <nlohmann/json_fwd.hpp>

#include "foretone/schedule/account.hpp"

namespace foretone::report {

/// {"liquid": {"laid", "in", "on", "wiped", "gone"}, "binder": …, "dye": …, "pigment": …}, g/m².
nlohmann::ordered_json account_json(const schedule::Account& account);

}  // namespace foretone::report
