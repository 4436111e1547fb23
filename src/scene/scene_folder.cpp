#include "foretone/scene/scene_folder.hpp"

#include <algorithm>

#include "foretone/scene/bundle.hpp"
#include "foretone/scene/file_kind.hpp"
#include "foretone/scene/problem.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::scene {
namespace {

bool may_be_scene(const std::filesystem::path& file) {
    if (file.extension() == ".zip") return is_bundle(file);
    if (file.extension() != ".toml") return false;
    try {
        return is_scene(read_text(file), file.string());
    } catch (const InputError&) {
        return true;
    }
}

}  // namespace

std::vector<std::filesystem::path> scenes_in(const std::filesystem::path& folder) {
    std::error_code error;
    std::vector<std::filesystem::path> files;
    for (std::filesystem::directory_iterator at(folder, error), end; !error && at != end; at.increment(error))
        if (at->is_regular_file(error)) files.push_back(at->path());
    if (error) throw InputError("file-unreadable", {folder.string()}, "the folder cannot be read: " + error.message());
    std::sort(files.begin(), files.end());
    std::erase_if(files, [](const auto& file) { return !may_be_scene(file); });
    if (files.empty())
        throw InputError("folder-no-scene", {folder.string()},
                         "no scene lies in this folder: a TOML file with [wood] and [[finish]], or a job's zip");
    return files;
}

}  // namespace foretone::scene
