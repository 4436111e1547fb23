#include "foretone/scene/text_file.hpp"

#include <fstream>
#include <mutex>
#include <set>
#include <sstream>

#include "foretone/scene/bundle.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {

namespace {

struct Read {
    std::mutex lock;
    std::set<std::filesystem::path> files;
};

Read& read_so_far() {
    static Read all;
    return all;
}

}  // namespace

void note_read(const std::filesystem::path& path) {
    std::error_code error;
    const auto whole = std::filesystem::absolute(path, error);
    const std::lock_guard<std::mutex> hold(read_so_far().lock);
    read_so_far().files.insert(error ? path : whole);
}

std::vector<std::filesystem::path> files_read() {
    const std::lock_guard<std::mutex> hold(read_so_far().lock);
    return {read_so_far().files.begin(), read_so_far().files.end()};
}

std::string read_bytes(const std::filesystem::path& path, std::size_t largest) {
    const Place place{path.string()};
    std::error_code error;
    const auto status = std::filesystem::status(path, error);
    if (const auto bundle = std::filesystem::exists(status) ? "" : bundle_of(path); !bundle.empty())
        return Bundle(read_bytes(bundle, BundleLimits{}.bytes), bundle.string())
            .read(path.filename().string(), largest);
    if (!std::filesystem::exists(status)) throw InputError("file-missing", place, "there is no such file");
    if (std::filesystem::is_directory(status))
        throw InputError("file-directory", place, "this is a directory; a file is needed");
    if (!std::filesystem::is_regular_file(status))
        throw InputError("file-unreadable", place, "this is not a regular file");
    const auto size = std::filesystem::file_size(path, error);
    if (error) throw InputError("file-unreadable", place, "the file cannot be read: " + error.message());
    if (size > largest)
        throw InputError("file-too-large", place,
                         "the file has " + std::to_string(size) + " bytes; the largest read is " +
                             std::to_string(largest) + " (a scene or spectrum has a few thousand)");
    note_read(path);
    std::ifstream in(path, std::ios::binary);
    std::stringstream text;
    text << in.rdbuf();
    if (!in) throw InputError("file-unreadable", place, "the file cannot be read; are you allowed to?");
    return text.str();
}

bool lies_in_bundle(const std::filesystem::path& path) {
    std::error_code error;
    return !std::filesystem::exists(path, error) && !bundle_of(path).empty();
}

std::filesystem::path scene_in(const std::filesystem::path& file) {
    if (!is_bundle(file)) return file;
    return file / Bundle(read_bytes(file, BundleLimits{}.bytes), file.string()).scene();
}

std::string read_text(const std::filesystem::path& path) {
    const Place place{path.string()};
    std::string content = read_bytes(path, largest_text_file);
    if (content.find('\0') != std::string::npos)
        throw InputError("file-binary", place, "this is a binary file; a plain text file is needed");
    if (content.starts_with("\xEF\xBB\xBF")) content.erase(0, 3);
    return content;
}

}  // namespace foretone::scene
