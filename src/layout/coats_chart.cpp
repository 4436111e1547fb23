#include "foretone/layout/coats_chart.hpp"

#include <algorithm>

#include "target_fields.hpp"

namespace foretone::layout {
namespace {

void check(const CoatsChart& chart) {
    const std::string here = "layout::lay_out(CoatsChart)";
    check_counts(chart.lights.size(), chart.columns.size(), here);
    if (!chart.target.empty()) check_fields(chart.target, chart.lights, here + ", target");
    for (const auto& column : chart.columns) {
        const std::string place = here + ", column " + column.heading;
        check_fields(column.by_light, chart.lights, place);
        if (!column.added.empty() && column.added.size() != chart.lights.size())
            throw std::invalid_argument(place + ": one added ΔE00 a light, or none");
    }
}

Grid grid_of(const CoatsChart& chart) {
    const bool aimed = !chart.target.empty();
    Grid grid{chart.lights, {"coat adds ΔE00"}, {}, {}};
    if (aimed) grid.labels.insert(grid.labels.end(), {"to target ΔE00", "in words"});
    for (auto& label : field_labels()) grid.labels.push_back(std::move(label));
    for (const auto& column : chart.columns) {
        GridColumn out{column.heading, column.remark, {}};
        for (std::size_t l = 0; l < chart.lights.size(); ++l) {
            const auto& seen = column.by_light[l];
            std::vector<Caption> captions = {{{}, column.added.empty() ? "" : number(column.added[l], 1)}};
            if (aimed) captions.insert(captions.end(), {{{}, number(seen.de00, 1)}, {{}, seen.words}});
            for (auto& caption : field_captions(seen.field)) captions.push_back(std::move(caption));
            Cell cell{seen.field.code, seen.field.in_gamut, std::move(captions)};
            if (aimed) cell.beside = chart.target[l].code;
            out.by_light.push_back(std::move(cell));
        }
        grid.columns.push_back(std::move(out));
    }
    grid.strips = rows_of(0, grid.columns.size());
    return grid;
}

}  // namespace

Sheet lay_out(const CoatsChart& chart) {
    check(chart);
    const Grid grid = grid_of(chart);
    auto facts = facts_of(chart.wood, chart.geometry, chart.observer, chart.lights);
    if (!chart.step.empty()) facts.insert(facts.begin(), "Coats of: " + chart.step);
    if (!chart.target.empty())
        facts.push_back("Lower part: the target, " +
                        (chart.target_name.empty() ? std::string("as given") : chart.target_name));
    Page page(grid_width(grid));
    page.sheet.title = chart.finish.empty() ? "Coats" : chart.finish;
    page.sheet.description = "Coats of one step, from none upward" + (chart.scene.empty() ? "" : ": " + chart.scene);
    Foot foot{chart.rests_on, chart.columns[0].by_light[0].field.spread_de00, 0, false, chart.notes};
    for (const auto& column : chart.columns)
        for (const auto& seen : column.by_light) take(foot, seen.field);
    const int body = add_header(page, {chart.scene, page.sheet.title, facts});
    add_foot(page, add_grid(page, body, grid), foot);
    return std::move(page.sheet);
}

}  // namespace foretone::layout
