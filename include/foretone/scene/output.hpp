#pragma once
/// Writes results: all of them, or none.

#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace foretone::scene {

struct OutputFile {
    std::filesystem::path path;
    std::vector<std::uint8_t> bytes;
    std::string otherwise = "choose another folder with --out DIR";  ///< what to do if it cannot be written

    static OutputFile text(std::filesystem::path path, const std::string& content) {
        OutputFile out;
        out.path = std::move(path);
        out.bytes.assign(content.begin(), content.end());
        return out;
    }
};

/// Makes missing folders, writes each file beside its place and moves all into place at the end. Throws InputError
/// `out-unwritable` with nothing half-written left behind.
void write_all(const std::vector<OutputFile>& files);

/// A name as part of a file name: lower case letters and digits, everything else a single '-'; at most 60 characters.
std::string file_word(const std::string& name);

}  // namespace foretone::scene
