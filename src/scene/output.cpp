#include "foretone/scene/output.hpp"

#include <fstream>

#include "foretone/base/text.hpp"
#include "foretone/scene/problem.hpp"

namespace foretone::scene {
namespace {

std::filesystem::path beside(const std::filesystem::path& path) {
    auto temporary = path;
    temporary += ".part";
    return temporary;
}

}  // namespace

void write_all(const std::vector<OutputFile>& files) {
    std::error_code error;
    const auto fail = [&](const OutputFile& file, const std::filesystem::path& path, const std::string& why) {
        for (const auto& f : files) std::filesystem::remove(beside(f.path), error);
        throw InputError("out-unwritable", {path.string()}, why + "; " + file.otherwise);
    };
    for (const auto& f : files) {
        const auto folder = f.path.parent_path();
        std::error_code made;
        if (!folder.empty()) std::filesystem::create_directories(folder, made);
        if (made) fail(f, folder, "this folder cannot be made: " + made.message());
        if (std::filesystem::is_directory(f.path, error)) fail(f, f.path, "a folder of this name is in the way");
        std::ofstream out(beside(f.path), std::ios::binary | std::ios::trunc);
        out.write(reinterpret_cast<const char*>(f.bytes.data()), static_cast<std::streamsize>(f.bytes.size()));
        out.close();
        if (!out) fail(f, f.path, "this file cannot be written");
    }
    for (const auto& f : files) {
        std::error_code moved;
        std::filesystem::rename(beside(f.path), f.path, moved);
        if (moved) fail(f, f.path, "this file cannot be written: " + moved.message());
    }
}

std::string file_word(const std::string& name) {
    std::string out;
    for (const char c : base::lower(name)) {
        const bool letter = (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9');
        if (letter)
            out += c;
        else if (!out.empty() && out.back() != '-')
            out += '-';
        if (out.size() == 60) break;
    }
    while (!out.empty() && out.back() == '-') out.pop_back();
    return out.empty() ? "finish" : out;
}

}  // namespace foretone::scene
