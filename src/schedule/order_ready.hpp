#pragma once
/// The order rules of ready colored coats and of treatments.

#include "foretone/schedule/order_rules.hpp"

namespace foretone::schedule {

/// Adds what they find to `out`; treatments are judged by what `wood` holds, if it is known.
void check_ready(const Finish& finish, const material::Materials& materials, const material::Wood* wood,
                 std::vector<Finding>& out);

}  // namespace foretone::schedule
