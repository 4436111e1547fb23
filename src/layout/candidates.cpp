#include "foretone/layout/candidates.hpp"

#include <algorithm>

#include "target_fields.hpp"
#include "page_style.hpp"

namespace foretone::layout {
namespace {

void check(const Candidates& c) {
    const std::string here = "layout::lay_out(Candidates)";
    check_counts(c.lights.size(), c.columns.size(), here);
    check_fields(c.target, c.lights, here + ", target");
    if (!c.bare.empty()) check_fields(c.bare, c.lights, here + ", bare");
    for (const auto& column : c.columns)
        check_fields(column.by_light, c.lights, here + ", candidate " + column.heading);
}

GridColumn stand(const std::vector<Field>& fields, const std::string& heading, const std::string& role) {
    GridColumn column{heading, "", {}};
    for (const auto& field : fields) {
        std::vector<Caption> captions = {{{}, role}, {}, {}};
        for (auto& caption : field_captions(field)) captions.push_back(std::move(caption));
        captions.back().text.clear();  // a control and a target are what they are: no spread
        column.by_light.push_back({field.code, field.in_gamut, std::move(captions)});
    }
    return column;
}

Grid grid_of(const Candidates& c) {
    Grid grid{c.lights, {"to target ΔE00", "in words", "client sees it"}, {}, {}};
    for (auto& label : field_labels()) grid.labels.push_back(std::move(label));
    if (!c.bare.empty()) grid.columns.push_back(stand(c.bare, "Bare wood", "control"));
    grid.columns.push_back(stand(c.target, c.target_name.empty() ? "Target" : "Target: " + c.target_name, "target"));
    const std::size_t lead = grid.columns.size();
    for (const auto& column : c.columns) {
        GridColumn out{column.heading, column.effort, {}};
        for (std::size_t l = 0; l < c.lights.size(); ++l) {
            const auto& seen = column.by_light[l];
            std::vector<Caption> captions = {
                {{}, number(seen.de00, 1)}, {{}, seen.words}, {{}, l == 0 ? column.chance : ""}};
            for (auto& caption : field_captions(seen.field)) captions.push_back(std::move(caption));
            Cell cell{seen.field.code, seen.field.in_gamut, std::move(captions)};
            cell.beside = c.target[l].code;
            out.by_light.push_back(std::move(cell));
        }
        grid.columns.push_back(std::move(out));
    }
    grid.strips = rows_of(lead, grid.columns.size());
    return grid;
}

// The mixing lines in full, each with its candidate's heading.
int add_recipes(Page& page, int y, const Candidates& c) {
    constexpr int indent = 60;
    for (const auto& column : c.columns) {
        const int end = page.paragraph(page.left() + indent, y, column.recipe, style::body, style::ink,
                                       page.inner_width() - indent, 6);
        page.line(page.left(), y, column.heading, style::strong, style::ink);
        y = std::max(end, y + Page::line_height(style::strong)) + 6;
    }
    return y + 18;
}

}  // namespace

Sheet lay_out(const Candidates& candidates) {
    check(candidates);
    const Grid grid = grid_of(candidates);
    auto facts = facts_of(candidates.wood, candidates.geometry, candidates.observer, candidates.lights);
    facts.emplace_back("Lower part of each candidate: the target");
    Page page(grid_width(grid));
    page.sheet.title = candidates.scene.empty() ? "Candidates" : candidates.scene;
    page.sheet.description = "Recipes for a target, each beside it";
    Foot foot{candidates.rests_on, candidates.columns[0].by_light[0].field.spread_de00, 0, false, candidates.notes};
    for (const auto& column : candidates.columns)
        for (const auto& seen : column.by_light) take(foot, seen.field);
    const int body = add_header(page, {"Recipes for a target", page.sheet.title, facts});
    add_foot(page, add_recipes(page, add_grid(page, body, grid), candidates), foot);
    return std::move(page.sheet);
}

}  // namespace foretone::layout
