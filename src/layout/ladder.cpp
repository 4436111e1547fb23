#include "foretone/layout/ladder.hpp"

#include <algorithm>

#include "against.hpp"

namespace foretone::layout {
namespace {

void check(const Ladder& ladder) {
    const std::string here = "layout::lay_out(Ladder)";
    check_counts(ladder.lights.size(), ladder.columns.size(), here);
    if (!ladder.target.empty()) check_fields(ladder.target, ladder.lights, here + ", target");
    for (const auto& column : ladder.columns) {
        const std::string place = here + ", column " + column.heading;
        check_fields(column.by_light, ladder.lights, place);
        if (!column.added.empty() && column.added.size() != ladder.lights.size())
            throw std::invalid_argument(place + ": one added ΔE00 a light, or none");
    }
}

Grid grid_of(const Ladder& ladder) {
    const bool aimed = !ladder.target.empty();
    Grid grid{ladder.lights, {"coat adds ΔE00"}, {}, {}};
    if (aimed) grid.labels.insert(grid.labels.end(), {"to target ΔE00", "in words"});
    for (auto& label : field_labels()) grid.labels.push_back(std::move(label));
    for (const auto& column : ladder.columns) {
        GridColumn out{column.heading, column.remark, {}};
        for (std::size_t l = 0; l < ladder.lights.size(); ++l) {
            const auto& seen = column.by_light[l];
            std::vector<Caption> captions = {{{}, column.added.empty() ? "" : number(column.added[l], 1)}};
            if (aimed) captions.insert(captions.end(), {{{}, number(seen.de00, 1)}, {{}, seen.words}});
            for (auto& caption : field_captions(seen.field)) captions.push_back(std::move(caption));
            Cell cell{seen.field.code, seen.field.in_gamut, std::move(captions)};
            if (aimed) cell.beside = ladder.target[l].code;
            out.by_light.push_back(std::move(cell));
        }
        grid.columns.push_back(std::move(out));
    }
    grid.strips = rows_of(0, grid.columns.size());
    return grid;
}

}  // namespace

Sheet lay_out(const Ladder& ladder) {
    check(ladder);
    const Grid grid = grid_of(ladder);
    auto facts = facts_of(ladder.wood, ladder.geometry, ladder.observer, ladder.lights);
    if (!ladder.step.empty()) facts.insert(facts.begin(), "Coats of: " + ladder.step);
    if (!ladder.target.empty())
        facts.push_back("Lower part: the target, " +
                        (ladder.target_name.empty() ? std::string("as given") : ladder.target_name));
    Page page(grid_width(grid));
    page.sheet.title = ladder.finish.empty() ? "Coats" : ladder.finish;
    page.sheet.description = "Coats of one step, from none upward" + (ladder.scene.empty() ? "" : ": " + ladder.scene);
    Foot foot{ladder.rests_on, ladder.columns[0].by_light[0].field.spread_de00, 0, false, ladder.notes};
    for (const auto& column : ladder.columns)
        for (const auto& seen : column.by_light) take(foot, seen.field);
    const int body = add_header(page, {ladder.scene, page.sheet.title, facts});
    add_foot(page, add_grid(page, body, grid), foot);
    return std::move(page.sheet);
}

}  // namespace foretone::layout
