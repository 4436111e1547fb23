#pragma once
// Fitted figures put on the shelf, marked for what they are.

#include "fit_model.hpp"

namespace foretone::measure {

/// Fills `result.shelf`, `changed` and `notes` from the model as it is set. `told`: groups that the readings told; only
/// figures of these are marked `fitted`.
void fill_shelf(const FitModel& model, const std::set<std::string>& told, FitResult& result);

}  // namespace foretone::measure
