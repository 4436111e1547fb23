#pragma once
// What writing would lose.

#include "foretone/scene/output.hpp"
#include "placing.hpp"

namespace foretone::scene {

/// Throws InputError `out-is-input` or `out-not-ours`, naming what would be lost, unless the rules let it go.
void require_no_loss(const std::filesystem::path& path, const Destination& target, const WriteRules& rules);

}  // namespace foretone::scene
