// Parts of a search. The best of each kind in a fixed room is the same whatever the order of arrival (search/best.hpp),
// so the best of the parts' best are those of the whole, to the last bit: a part keeps the doubles it found.

#include "foretone/job/match_part.hpp"

#include <algorithm>
#include <limits>

#include <fmt/core.h>

#include "foretone/base/checksum.hpp"
#include "foretone/base/number.hpp"
#include "foretone/scene/text_file.hpp"
#include "foretone/scene/version.hpp"

namespace foretone::job {
namespace {

// "3, 7 and 9"; of many the first twelve.
std::string listed(const std::vector<std::size_t>& numbers) {
    constexpr std::size_t most = 12;
    std::string out;
    for (std::size_t i = 0; i < std::min(numbers.size(), most); ++i)
        out += (i == 0 ? "" : i + 1 == numbers.size() ? " and " : ", ") + std::to_string(numbers[i]);
    if (numbers.size() > most) out += " and " + std::to_string(numbers.size() - most) + " more";
    return out;
}

void require_alike(const std::vector<MatchPart>& parts, const std::string& problem, std::uint64_t recipes) {
    for (const auto& part : parts) {
        const scene::Place place{part.file};
        if (part.problem != problem || part.recipes != recipes)
            throw scene::InputError("part-other", place,
                                    "this part is of another scene, of other materials or of another version of "
                                    "foretone: delete it and work it out again with this scene");
        if (part.of != parts.front().of)
            throw scene::InputError("part-number", place,
                                    "this is part " + std::to_string(part.number) + "/" + std::to_string(part.of) +
                                        ", " + parts.front().file + " is of " + std::to_string(parts.front().of) +
                                        ": join parts of one sharing");
    }
}

}  // namespace

MatchPart part_asked(const std::string& text) {
    MatchPart out;
    const auto slash = text.find('/');
    const auto number = [](std::string_view word, std::size_t& to) {
        if (word.empty() || word.size() > 6 || word.find_first_not_of("0123456789") != std::string_view::npos)
            return false;
        to = static_cast<std::size_t>(base::number_in(word).value_or(0));
        return true;
    };
    if (slash == std::string::npos || !number(text.substr(0, slash), out.number) ||
        !number(text.substr(slash + 1), out.of) || out.number < 1 || out.of < 1 || out.number > out.of ||
        out.of > most_parts)
        throw scene::InputError("part-unknown", {"--part"},
                                "\"" + text + "\" is no part: write which of how many, such as 3/64 (at most " +
                                    std::to_string(most_parts) + ")");
    return out;
}

std::string problem_of(const Search& search) {
    // Files in the order of their content: names and folders differ from machine to machine.
    std::vector<std::uint64_t> files;
    for (const auto& path : scene::files_read())
        files.push_back(base::fnv1a(scene::read_bytes(path, std::numeric_limits<std::size_t>::max())));
    std::sort(files.begin(), files.end());
    files.erase(std::unique(files.begin(), files.end()), files.end());
    std::string text(scene::version);
    for (const auto f : files) text += " " + std::to_string(f);
    const std::uint64_t recipes = search.space().size();
    text += " " + std::to_string(recipes);
    constexpr std::uint64_t asked = 8;
    for (std::uint64_t i = 0; i < asked; ++i)
        for (const double r : search.engine().reflectance(i * (recipes - 1) / (asked - 1)))
            text += " " + base::shortest(r);
    return fmt::format("{:016x}", base::fnv1a(text));
}

std::vector<search::Found> kept_of(const search::Best& best) {
    return best.closest(std::numeric_limits<std::size_t>::max());
}

search::Best joined(const Search& search, const std::string& problem, const std::vector<MatchPart>& parts) {
    const std::uint64_t recipes = search.space().size();
    require_alike(parts, problem, recipes);
    const std::size_t of = parts.empty() ? 1 : parts.front().of;
    std::vector<const MatchPart*> by_number(of, nullptr);
    for (const auto& part : parts) {
        const auto*& place = by_number[part.number - 1];
        if (place && place->kept != part.kept)
            throw scene::InputError("part-number", {part.file},
                                    "part " + std::to_string(part.number) + " is in " + place->file +
                                        " already, with other recipes: keep the right one");
        place = &part;
    }
    std::vector<std::size_t> missing;
    for (std::size_t i = 0; i < of; ++i)
        if (!by_number[i]) missing.push_back(i + 1);
    if (!missing.empty())
        throw scene::InputError("part-missing", {parts.empty() ? "--join" : parts.front().file},
                                std::string(missing.size() == 1 ? "part " : "parts ") + listed(missing) + " of " +
                                    std::to_string(of) + (missing.size() == 1 ? " is" : " are") +
                                    " missing: work out what is missing with --part, then join all");
    search::Best out(Search::keep);
    for (const auto* part : by_number)
        for (const auto& found : part->kept) {
            if (found.number >= recipes)
                throw scene::InputError("part-other", {part->file},
                                        "recipe " + std::to_string(found.number) + " is not of this search");
            const auto effort = search::effort(search.space(), found.number);
            out.offer(effort.steps, effort.colorants, found);
        }
    return out;
}

}  // namespace foretone::job
