#pragma once
/// Reads a text file whole, or says why not.

#include <cstddef>
#include <filesystem>
#include <string>
#include <vector>

namespace foretone::scene {

inline constexpr std::size_t largest_text_file = 1'000'000;  ///< bytes; a scene or spectrum is a few kilobytes

/// The scene of a file: the file itself, or job.zip/job.toml of a job in one file (`foretone/scene/bundle.hpp`). Throws
/// InputError as Bundle.
std::filesystem::path scene_in(const std::filesystem::path& file);

/// Whether `path` names a file in such a job: job.zip/board.csv.
bool lies_in_bundle(const std::filesystem::path& path);

/// The bytes of a file of at most `largest`. Throws InputError: file-missing, file-directory, file-too-large (before
/// anything is read), file-unreadable.
std::string read_bytes(const std::filesystem::path& path, std::size_t largest);

/// Remembers a file that is read by other means.
void note_read(const std::filesystem::path& path);

/// Every file that this process has read so far: what a result must not be written over.
std::vector<std::filesystem::path> files_read();

/// Text without a byte-order mark. Throws InputError: file-missing, file-directory, file-too-large (before anything is
/// read), file-binary, file-unreadable.
std::string read_text(const std::filesystem::path& path);

}  // namespace foretone::scene
