#include "foretone/layout/overview.hpp"

#include <algorithm>
#include <stdexcept>

#include "grid.hpp"
#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int chips_width = 1512;
constexpr std::size_t most_overview_boards = 1000, small_chips_from = 140;
constexpr int board_gap = 18;   // between neighbours: they are other woods, and their captions need room
constexpr int tallest = 16000;  // beyond it groups run on

/// Sizes of one board's place.
struct ChipPlace {
    int columns, finished, bare;
    std::size_t name_lines, remark_lines;
    bool figures;  ///< L* a* b* and spread below the name
    int width() const { return (chips_width + board_gap) / columns - board_gap; }
};

constexpr ChipPlace large_chips{7, 100, 44, 2, 4, true}, small_chips{12, 100, 24, 1, 1, false};

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
    if (boards < 1 || boards > most_overview_boards)
        throw std::invalid_argument(here + ": 1 to 1000 boards, got " + std::to_string(boards));
}

/// One board with its upper left corner at x, y, told by `of` too; returns where it ends.
int add_board(Page& page, int x, int y, const std::string& of, const OverviewBoard& b, const ChipPlace& place) {
    const int width = place.width(), height = place.finished + place.bare;
    if (b.finished) {
        page.sheet.fields.push_back({{x, y, width, place.finished}, b.finished->code, !b.finished->in_gamut});
        page.sheet.strips.push_back({{x, y + place.finished, width, place.bare}, b.bare->code, !b.bare->in_gamut});
    } else {
        for (const int line : {y, y + height - 1}) page.sheet.rules.push_back({{x, line, width, 1}, style::hairline});
    }
    y = page.paragraph(x, y + height + 6, of, style::caption, style::quiet_ink, width, 1);
    y = page.paragraph(x, y, b.name, place.figures ? style::strong : style::caption, style::ink, width,
                       place.name_lines);
    if (b.finished && place.figures) {
        const auto captions = field_captions(*b.finished);
        const auto& lab = captions[0].numbers;
        y = page.paragraph(x, y, lab[0] + "  " + lab[1] + "  " + lab[2], style::caption, style::ink, width, 1);
        y = page.paragraph(x, y, captions[2].text + "  " + captions[1].text, style::caption, style::quiet_ink, width,
                           1);
    }
    return page.paragraph(x, y, b.remarks, style::caption, style::ink, width, place.remark_lines);
}

/// A board, and what it is told by beside its own name.
struct Told {
    const OverviewBoard* board;
    std::string of;
};

int add_rows(Page& page, int y, const std::vector<Told>& boards, const ChipPlace& place) {
    const auto columns = static_cast<std::size_t>(place.columns);
    for (std::size_t first = 0; first < boards.size(); first += columns) {
        int end = y;
        for (std::size_t i = first; i < std::min(boards.size(), first + columns); ++i) {
            const int x = page.left() + int(i - first) * (place.width() + board_gap);
            end = std::max(end, add_board(page, x, y, boards[i].of, *boards[i].board, place));
        }
        y = end + (place.figures ? 18 : 10);
    }
    return y;
}

int add_groups(Page& page, int y, const Overview& o) {
    for (const auto& group : o.groups) {
        y = page.paragraph(page.left(), y, group.heading, style::heading, style::ink, chips_width, 3);
        y = page.paragraph(page.left(), y, group.subheading, style::caption, style::quiet_ink, chips_width, 3) + 8;
        std::vector<Told> boards;
        for (const auto& b : group.boards) boards.push_back({&b, ""});
        y = add_rows(page, y, boards, large_chips) + 14;
    }
    return y;
}

/// All groups in one run of small boards, each told by its group.
int add_run(Page& page, int y, const Overview& o) {
    std::vector<Told> boards;
    for (const auto& group : o.groups)
        for (const auto& b : group.boards) boards.push_back({&b, o.groups.size() > 1 ? group.heading : ""});
    return add_rows(page, y, boards, small_chips) + 14;
}

Foot foot_of(const Overview& o) {
    Foot foot{o.rests_on, 1000, 0, false, o.notes};
    for (const auto& group : o.groups)
        for (const auto& b : group.boards) {
            if (!b.finished) continue;
            foot.least_spread = std::min(foot.least_spread, b.finished->spread_de00);
            foot.most_spread = std::max(foot.most_spread, b.finished->spread_de00);
            foot.out_of_gamut = foot.out_of_gamut || !b.finished->in_gamut || !b.bare->in_gamut;
        }
    foot.least_spread = std::min(foot.least_spread, foot.most_spread);
    return foot;
}

}  // namespace

Sheet lay_out(const Overview& o) {
    check(o);
    std::size_t boards = 0;
    for (const auto& group : o.groups) boards += group.boards.size();
    auto facts = facts_of(o.wood, o.geometry, o.observer, {o.light});
    facts.emplace_back("Lower part of each board: the bare wood");
    const auto laid = [&](const auto& add, const std::string& figures) {
        Page page(chips_width);
        page.sheet.title = o.title;
        page.sheet.description = "Finished boards, each with its bare wood below";
        const int body = add_header(page, {"Finishes and woods", o.title, facts});
        auto foot = foot_of(o);
        foot.notes.insert(foot.notes.begin(), figures);
        add_foot(page, add(page, body, o), foot);
        return std::move(page.sheet);
    };
    if (boards < small_chips_from)
        if (auto sheet = laid(add_groups, "Below each name: L* a* b*; then ± and the sRGB code.");
            sheet.height <= tallest)
            return sheet;
    return laid(add_run, "L* a* b* and the spread of each board are in the table and the JSON.");
}

}  // namespace foretone::layout
