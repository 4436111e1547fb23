#pragma once
/// The order facts of a material with their marks, for `materials --show`.

#include <nlohmann/json.hpp>
#include <string>

#include "foretone/material/order.hpp"

namespace foretone::cli {

/// [{key, value, mark, source}], waits with their unit and sd; cautions last.
nlohmann::ordered_json order_json(const material::Order& order);

/// Two lines a fact; empty if nothing is stated.
std::string order_text(const material::Order& order);

}  // namespace foretone::cli
