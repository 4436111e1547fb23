#pragma once
/// What results are called: one function gives each its own name.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace foretone::scene {

/// A name as part of a file name: letters and digits of any script kept (those of ASCII in lower case), everything
/// else a single '-'; at most 60 bytes, whole characters. "finish" if nothing is left.
std::string file_word(std::string_view name);

/// What results of `file` begin with: its name without the ending, as it stands; one that is long, begins with '.' or
/// '-' or holds control characters is a word with a checksum.
std::string file_stem(const std::filesystem::path& file);

/// A word for each of `names`, no two alike: `file_word`, and where several names come to one word (or to one of
/// `taken`), "-" and four or more digits of a checksum of the name behind it; a name that is its own word keeps it. A
/// name's word does not depend on the order of the others. Equal names are told apart by "-2", "-3" in their order.
std::vector<std::string> file_words(const std::vector<std::string>& names, const std::vector<std::string>& taken = {});

}  // namespace foretone::scene
