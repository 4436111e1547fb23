#pragma once
// [joint] of a fitted file: what step boards taught of all its figures together.

#include <functional>

#include "foretone/appearance/joint.hpp"
#include "toml_keys.hpp"

namespace foretone::scene {

/// Reads the table. Nothing, and a warning said through `warn`, if it is of a version that this program does not know
/// or if its checksum does not fit what it says: then every figure stands by its own sd.
std::optional<appearance::JointTable> read_joint(const Keys& joint, const std::function<void(Problem)>& warn);

/// The table as text, materials by the names under which they are written; "" for a table without figures.
std::string joint_toml(const appearance::JointTable& table,
                       const std::function<std::string(const std::string&)>& written_as);

}  // namespace foretone::scene
