#pragma once
/// A share of a search as a JSON file, out and in.

#include <filesystem>
#include <string>

#include "foretone/job/match_part.hpp"

namespace foretone::report {

/// {"tool", "part": [number, of], "problem", "recipes", "kept": [[recipe number, dE00], ...]}
std::string match_part_json(const job::MatchPart& part);

/// Reads what `match_part_json` wrote. Throws InputError: what `scene::read_bytes` throws, and `part-file` for a file
/// that is none or is cut short.
job::MatchPart read_match_part(const std::filesystem::path& path);

}  // namespace foretone::report
