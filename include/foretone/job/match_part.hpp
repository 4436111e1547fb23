#pragma once
/// A search shared out: what one share of the ways found, kept until all shares are joined.

#include <cstdint>
#include <string>
#include <vector>

#include "foretone/job/match.hpp"

namespace foretone::job {

/// One share of a search, done: shares are the ways k, k + of, k + 2 of, …
struct MatchPart {
    std::string problem;             ///< checksum of what was asked
    std::size_t number = 1, of = 1;  ///< from 1
    std::uint64_t recipes = 0;       ///< of the whole search
    std::vector<search::Found> kept;
    std::string file{};  ///< where it was read from
};

/// Most parts that a search may be shared among.
inline constexpr std::size_t most_parts = 100'000;

/// "3/64". Throws InputError `part-unknown`.
MatchPart part_asked(const std::string& text);

/// A checksum of the files that were read for a scene, of this version, and of colors that this program makes of eight
/// recipes: parts of another scene, other materials or another program have another.
std::string problem_of(const Search& search);

/// All that a finished examination kept.
std::vector<search::Found> kept_of(const search::Best& best);

/// What all parts found. Throws InputError: `part-other` (another scene, other materials, another version),
/// `part-number` (shares of different numbers of parts, or one of them twice with other content), `part-missing`.
search::Best joined(const Search& search, const std::string& problem, const std::vector<MatchPart>& parts);

}  // namespace foretone::job
