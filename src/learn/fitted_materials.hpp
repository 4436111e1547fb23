#pragma once
// Fitted figures put among the materials, marked for what they are.

#include "fit_model.hpp"

namespace foretone::learn {

/// Fills `result.materials`, `changed` and `notes` from the model as it is set. `resolved`: groups that the readings
/// narrow; only figures of these are marked `fitted`.
void fill_materials(const FitModel& model, const std::set<std::string>& resolved, FitResult& result);

}  // namespace foretone::learn
