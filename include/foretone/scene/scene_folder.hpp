#pragma once
/// A folder of scenes.

#include <filesystem>
#include <vector>

namespace foretone::scene {

/// The scenes that lie in `folder` itself, by name: TOML files that have a wood or a finish, TOML files whose syntax is
/// at fault (so that reading them tells), and jobs in one file (zips). Files of materials and of boards, folders in it
/// and all other files are passed over. Throws InputError folder-no-scene where there is none, file-unreadable.
std::vector<std::filesystem::path> scenes_in(const std::filesystem::path& folder);

}  // namespace foretone::scene
