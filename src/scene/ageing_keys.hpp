#pragma once
// Keys of time and light, read alike wherever they stand.

#include "foretone/scene/scene.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// `after` and `exposure` of [look], and what was assumed of them.
void read_ageing(const Keys& look, Look& out, std::vector<Problem>& warnings);

/// One time under a key; nothing if it is not there or is none (then reported).
std::optional<Duration> read_duration(const Keys& keys, std::string_view key);

}  // namespace foretone::scene
