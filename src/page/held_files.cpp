// In the browser, scene::read_text reads from what was handed over: there are no files.
#include "held_files.hpp"

#include "foretone/scene/problem.hpp"
#include "foretone/scene/text_file.hpp"

namespace foretone::page {

std::map<std::string, std::string>& held_files() {
    static std::map<std::string, std::string> files;
    return files;
}

}  // namespace foretone::page

namespace foretone::scene {

std::string read_bytes(const std::filesystem::path& path, std::size_t largest) {
    const Place place{path.string()};
    const auto& files = page::held_files();
    const auto found = files.find(path.filename().string());
    if (found == files.end())
        throw InputError("file-missing", place,
                         "the scene refers to this file; open it together with the scene (choose both at once)");
    if (found->second.size() > largest)
        throw InputError("file-too-large", place,
                         "the file has " + std::to_string(found->second.size()) + " bytes; the largest read is " +
                             std::to_string(largest));
    return found->second;
}

void note_read(const std::filesystem::path&) {}

std::vector<std::filesystem::path> files_read() { return {}; }

// The page itself unpacks a job in one file, and hands over what is in it.
std::filesystem::path scene_in(const std::filesystem::path& file) { return file; }

bool lies_in_bundle(const std::filesystem::path&) { return false; }

std::string read_text(const std::filesystem::path& path) {
    std::string content = read_bytes(path, largest_text_file);
    if (content.find('\0') != std::string::npos)
        throw InputError("file-binary", {path.string()}, "this is a binary file; a plain text file is needed");
    if (content.starts_with("\xEF\xBB\xBF")) content.erase(0, 3);
    return content;
}

}  // namespace foretone::scene
