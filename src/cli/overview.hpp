#pragma once
// Many boards in one preview.

#include "common.hpp"

namespace foretone::cli {

/// The scenes that `given` names: files as they are, folders as the scenes in them.
std::vector<std::filesystem::path> scene_files(const std::vector<std::string>& given);

/// The woods that were said: ids once each, "all" as the whole library.
std::vector<std::string> woods_said(const std::vector<std::string>& said, const scene::Library& library);

/// One table and one picture of every finish of `files` on every one of `woods` (none: each scene's own). Returns the
/// exit status: 1 if a scene could not be read or a board not be worked out; all others are shown.
int run_overview(const Common& options, const std::vector<std::filesystem::path>& files, const std::string& stem,
                 const std::vector<std::string>& woods, bool with_picture);

}  // namespace foretone::cli
