#pragma once
/// Reads a text file whole, or says why not.

#include <filesystem>
#include <string>

namespace foretone::scene {

inline constexpr std::size_t largest_text_file = 1'000'000;  ///< bytes; a scene or spectrum is a few kilobytes

/// Throws InputError: file-missing, file-directory, file-too-large (before anything is read), file-binary, file-unreadable.
std::string read_text(const std::filesystem::path& path);

}  // namespace foretone::scene
