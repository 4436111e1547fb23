#include "seed.hpp"

#include <charconv>

#include "common.hpp"
#include "foretone/job/board.hpp"

namespace foretone::cli {

std::uint64_t seed_from(const std::string& verb, const std::string& text, const std::string& title) {
    if (text.empty()) return job::seed_of(title);
    std::uint64_t seed = 0;
    const auto read = std::from_chars(text.data(), text.data() + text.size(), seed);
    if (read.ec != std::errc() || read.ptr != text.data() + text.size() || seed > job::largest_seed)
        throw UsageError(
            "option-value", {verb},
            "--seed takes a whole number from 0 to " + std::to_string(job::largest_seed) + "; read \"" + text + "\"");
    return seed;
}

}  // namespace foretone::cli
