#pragma once
// One run at a time in a folder.

#include <filesystem>

#include "placing.hpp"

namespace foretone::scene {

/// Held by one run at a time for files of one folder, until the end of its life; a run that is killed lets go. The
/// folder itself is locked (flock), or, where a file system cannot lock folders, a hidden file ".NAME.lock" beside
/// `file`. Throws InputError `notebook-busy` if another run holds it for a minute, `out-unwritable` if nothing there
/// can be locked.
class FolderLock {
public:
    explicit FolderLock(const std::filesystem::path& file);

private:
    Descriptor held_;
};

}  // namespace foretone::scene
