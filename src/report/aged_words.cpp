#include "foretone/report/aged_words.hpp"

#include <algorithm>
#include <array>

#include "client_sheet_words.hpp"

namespace foretone::report {
namespace {

constexpr double seen_at_all = 0.5;  // ΔE00: below, nobody sees a part's change (common practice)
constexpr double nearly_all = 0.8;   // of what all parts do, each alone

}  // namespace

std::string aged_spread_words(const job::SeenAge& aged, std::size_t light) {
    const auto much = how_much(aged.colors.at(light).region.de00_90);
    return much == "hardly" ? "boards hardly differ" : "boards may differ " + much;
}

std::string aged_parts_words(const job::AgedParts& parts) {
    std::array<std::pair<double, const char*>, 3> all = {
        {{parts.wood, "the wood"}, {parts.film, "the film"}, {parts.dye, "the dye"}}};
    std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.first > b.first; });
    const double whole = parts.wood + parts.film + parts.dye;
    if (!(all[0].first >= seen_at_all)) return "no part of it changes to be seen";
    if (all[0].first >= nearly_all * whole) return std::string("nearly all of it is ") + all[0].second;
    return std::string("most of it is ") + all[0].second + ", then " + all[1].second;
}

}  // namespace foretone::report
