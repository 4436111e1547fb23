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

    static OutputFile text(std::filesystem::path path, const std::string& content) {
        return {std::move(path), {content.begin(), content.end()}};
    }
};

/// Makes missing folders, writes each file beside its place and moves all into place at the end. Throws InputError `out-unwritable` with nothing half-written
/// left behind.
void write_all(const std::vector<OutputFile>& files);

/// A name as part of a file name: lower case letters and digits, everything else a single '-'; at most 60 characters.
std::string file_word(const std::string& name);

}  // namespace foretone::scene
