#include "foretone/layout/overview.hpp"

#include <algorithm>
#include <stdexcept>

#include "grid.hpp"
#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int chips_width = 1512;
constexpr std::size_t most_overview_chips = 1000, small_chips_from = 140;
constexpr int board_gap = 18;  // between neighbours: they are other woods, and their captions need room

/// Sizes of one board's place.
struct ChipPlace {
    int columns, finished, bare;
    bool figures;  ///< L* a* b* and spread below the name
    int width() const { return (chips_width + board_gap) / columns - board_gap; }
};

constexpr ChipPlace large_chips{7, 100, 44, true}, small_chips{12, 62, 26, false};

void check(const Overview& o) {
    const std::string here = "layout::lay_out(Overview)";
    std::size_t boards = 0;
    for (const auto& group : o.groups) {
        if (group.boards.empty()) throw std::invalid_argument(here + ": a group without boards");
        boards += group.boards.size();
        for (const auto& b : group.boards) {
            if (b.finished.has_value() != b.bare.has_value())
                throw std::invalid_argument(here + ", " + b.name + ": a board is finished and bare, or neither");
            if (!b.finished) continue;
            check_field(*b.finished, here + ", " + b.name);
            check_field(*b.bare, here + ", " + b.name + ", bare");
        }
    }
    if (boards < 1 || boards > most_overview_chips)
        throw std::invalid_argument(here + ": 1 to 1000 boards, got " + std::to_string(boards));
}

/// One board with its upper left corner at x, y; returns where it ends.
int add_board(Page& page, int x, int y, const OverviewBoard& b, const ChipPlace& place) {
    const int width = place.width(), height = place.finished + place.bare;
    if (b.finished) {
        page.sheet.fields.push_back({{x, y, width, place.finished}, b.finished->code, !b.finished->in_gamut});
        page.sheet.fields.push_back({{x, y + place.finished, width, place.bare}, b.bare->code, !b.bare->in_gamut});
    } else {
        for (const int line : {y, y + height - 1}) page.sheet.rules.push_back({{x, line, width, 1}, style::hairline});
    }
    y = page.paragraph(x, y + height + 6, b.name, style::strong, style::ink, width, 2);
    if (b.finished && place.figures) {
        const auto captions = field_captions(*b.finished);
        const auto& lab = captions[0].numbers;
        y = page.paragraph(x, y, lab[0] + "  " + lab[1] + "  " + lab[2], style::caption, style::ink, width, 1);
        y = page.paragraph(x, y, captions[2].text + "  " + captions[1].text, style::caption, style::quiet_ink, width,
                           1);
    }
    return page.paragraph(x, y, b.remarks, style::caption, style::ink, width, 4);
}

int add_group(Page& page, int y, const OverviewGroup& group, const ChipPlace& place) {
    y = page.paragraph(page.left(), y, group.heading, style::heading, style::ink, chips_width, 3);
    y = page.paragraph(page.left(), y, group.subheading, style::caption, style::quiet_ink, chips_width, 3) + 8;
    const auto columns = static_cast<std::size_t>(place.columns);
    for (std::size_t first = 0; first < group.boards.size(); first += columns) {
        int end = y;
        for (std::size_t i = first; i < std::min(group.boards.size(), first + columns); ++i) {
            const int x = page.left() + int(i - first) * (place.width() + board_gap);
            end = std::max(end, add_board(page, x, y, group.boards[i], place));
        }
        y = end + 18;
    }
    return y + 14;
}

}  // namespace

Sheet lay_out(const Overview& o) {
    check(o);
    std::size_t boards = 0;
    for (const auto& group : o.groups) boards += group.boards.size();
    Page page(chips_width);
    page.sheet.title = o.title;
    page.sheet.description = "Finished boards, each with its bare wood below";
    auto facts = facts_of(o.wood, o.geometry, o.observer, {o.light});
    facts.emplace_back("Lower part of each board: the bare wood");
    int y = add_header(page, {"Finishes and woods", o.title, facts});
    Foot foot{o.rests_on, 0, 0, false, o.notes};
    bool first = true;
    for (const auto& group : o.groups) {
        y = add_group(page, y, group, boards < small_chips_from ? large_chips : small_chips);
        for (const auto& b : group.boards) {
            if (!b.finished) continue;
            if (first) foot.least_spread = b.finished->spread_de00;
            first = false;
            foot.least_spread = std::min(foot.least_spread, b.finished->spread_de00);
            foot.most_spread = std::max(foot.most_spread, b.finished->spread_de00);
            foot.out_of_gamut = foot.out_of_gamut || !b.finished->in_gamut || !b.bare->in_gamut;
        }
    }
    add_foot(page, y, foot);
    return std::move(page.sheet);
}

}  // namespace foretone::layout
