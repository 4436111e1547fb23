#include "foretone/search/edge.hpp"

#include <algorithm>

#include "foretone/base/number.hpp"

namespace foretone::search {
namespace {

constexpr double strongest_cut_lb = 6, weakest_cut_lb = 0.25;  // what can be dissolved, and what still builds

void dye_edges(const DyeChoices& c, const Space& space, const std::optional<DyeMix>& mix,
               std::vector<std::string>& out) {
    if (!mix) return;
    const auto [least, most] = std::minmax_element(c.water.begin(), c.water.end());
    const std::string written = " (water = " + std::to_string(mix->water) + ")";
    if (mix->water == *least && *least > 0)
        out.push_back("as strong a dye as allowed" + written + ": allow less water");
    if (mix->water == *most) out.push_back("as weak a dye as allowed" + written + ": allow more water");
    const auto parts = *std::max_element(mix->parts.begin(), mix->parts.end());
    if (mix->colorants() > 1 && parts == c.most_parts)
        out.push_back("as uneven a mix of dyes as allowed (most_parts = " + std::to_string(c.most_parts) +
                      "): allow more parts");
    if (mix->colorants() == c.at_once && c.at_once < static_cast<int>(space.stocks.size()))
        out.push_back("as many dyes in one mix as allowed (at_once = " + std::to_string(c.at_once) + "): allow more");
}

void coat_edges(const CoatChoices& c, const schedule::Step& step, const std::string& role,
                std::vector<std::string>& out) {
    const std::string what = role + " " + step.mix.front().use;
    const auto [fewest, most] = std::minmax_element(c.coats.begin(), c.coats.end());
    const std::string coats = std::to_string(step.coats) + (step.coats == 1 ? " coat" : " coats") + " of " + what;
    const bool free = *fewest < *most;  // one count alone is a choice already made, no edge
    if (free && step.coats == *most) out.push_back(coats + " is the most allowed: allow more coats");
    if (free && step.coats == *fewest && *fewest > 1)
        out.push_back(coats + " is the fewest allowed: allow fewer coats");
    if (step.cut_lb && c.cut_lb.size() > 1) {
        const auto [weakest, strongest] = std::minmax_element(c.cut_lb.begin(), c.cut_lb.end());
        const std::string cut = what + " at a " + base::shortest(*step.cut_lb) + "-lb cut is the ";
        if (*step.cut_lb == *strongest && *strongest < strongest_cut_lb)
            out.push_back(cut + "strongest allowed: allow a stronger cut_lb");
        if (*step.cut_lb == *weakest && *weakest > weakest_cut_lb)
            out.push_back(cut + "weakest allowed: allow a weaker cut_lb");
    }
    const auto at_end = [&](const std::optional<double>& said, const std::vector<double>& all, const std::string& key) {
        if (!said || all.size() < 2) return;
        const auto [least, largest] = std::minmax_element(all.begin(), all.end());
        const std::string here = what + ", " + key + " " + base::shortest(*said) + ", is the ";
        if (*said == *largest) out.push_back(here + "most allowed: allow a larger " + key);
        if (*said == *least && *least > 0) out.push_back(here + "least allowed: allow a smaller " + key);
    };
    at_end(step.remainder, c.remainder, "remainder");
    at_end(step.passes, c.passes, "passes");
    at_end(step.toner_strength, c.toner_strength, "toner_strength");
    if (step.sheen_gu60 && c.sheen_gu60.size() > 1) {
        const auto [dullest, glossiest] = std::minmax_element(c.sheen_gu60.begin(), c.sheen_gu60.end());
        const std::string sheen = what + " at " + base::shortest(*step.sheen_gu60) + " GU is the ";
        if (*step.sheen_gu60 == *glossiest) out.push_back(sheen + "glossiest allowed: allow a higher sheen_gu60");
        if (*step.sheen_gu60 == *dullest) out.push_back(sheen + "dullest allowed: allow a lower sheen_gu60");
    }
}

}  // namespace

std::vector<std::string> on_the_edge(const Choices& choices, const Space& space, std::uint64_t number) {
    const auto& way = space.ways.at(static_cast<std::size_t>(number / space.mixes.size()));
    std::vector<std::string> out;
    if (choices.dye)
        dye_edges(*choices.dye, space, space.mixes[static_cast<std::size_t>(number % space.mixes.size())], out);
    for (const Room r : put_on)
        if (way.option[r] >= 0 && choices.of(r))
            coat_edges(*choices.of(r), space.options[r][static_cast<std::size_t>(way.option[r])].step, room_words[r],
                       out);
    return out;
}

}  // namespace foretone::search
