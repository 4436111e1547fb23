#include "foretone/layout/step_board.hpp"

#include <algorithm>
#include <stdexcept>

#include "grid.hpp"
#include "plausible.hpp"

namespace foretone::layout {
namespace {

constexpr std::size_t most_columns = 64;

void check(const StepBoard& board) {
    const std::string here = "layout::lay_out(StepBoard)";
    if (board.lights.empty() || board.lights.size() > most_lights) {
        throw std::invalid_argument(here + ": 1 to 8 lights, got " + std::to_string(board.lights.size()));
    }
    if (board.columns.empty() || board.columns.size() > most_columns) {
        throw std::invalid_argument(here + ": 1 to 64 columns, got " + std::to_string(board.columns.size()));
    }
    check_plausible(board, here);
    for (std::size_t c = 0; c < board.columns.size(); ++c) {
        const std::vector<Field>& fields = board.columns[c].by_light;
        const std::string place = here + ", column " + std::to_string(c + 1) + " (" + board.columns[c].stage + ")";
        if (fields.size() != board.lights.size()) {
            throw std::invalid_argument(place + ": one field a light, " + std::to_string(board.lights.size()) +
                                        ", got " + std::to_string(fields.size()));
        }
        for (std::size_t l = 0; l < fields.size(); ++l) {
            check_field(fields[l], place + ", light " + board.lights[l]);
        }
    }
}

/// Rows of nearly equal length, at most `strip_most`, each later one opened by the last column of the row before.
std::vector<std::vector<std::size_t>> strips_of(std::size_t columns) {
    std::size_t rows = 1;
    while (columns + rows - 1 > rows * strip_most) {
        ++rows;
    }
    const std::size_t length = (columns + rows - 1 + rows - 1) / rows;
    std::vector<std::vector<std::size_t>> strips(1);
    for (std::size_t c = 0; c < columns; ++c) {
        if (strips.back().size() == length) {
            strips.push_back({c - 1});
        }
        strips.back().push_back(c);
    }
    return strips;
}

}  // namespace

Sheet lay_out(const StepBoard& board) {
    check(board);
    Grid grid{board.lights, field_labels(), {}, strips_of(board.columns.size())};
    Foot foot{board.rests_on, board.columns[0].by_light[0].spread_de00, 0, false, board.notes};
    for (const StageColumn& column : board.columns) {
        GridColumn out{column.stage, column.action, {}};
        for (const Field& field : column.by_light) {
            out.by_light.push_back({field.code, field.in_gamut, field_captions(field)});
            foot.least_spread = std::min(foot.least_spread, field.spread_de00);
            foot.most_spread = std::max(foot.most_spread, field.spread_de00);
            foot.out_of_gamut = foot.out_of_gamut || !field.in_gamut;
        }
        grid.columns.push_back(std::move(out));
    }
    // The column that opens a later strip is drawn twice; its second heading says so.
    for (std::size_t s = 1; s < grid.strips.size(); ++s) {
        GridColumn again = grid.columns[grid.strips[s][0]];
        again.subheading = "as above";
        grid.strips[s][0] = grid.columns.size();
        grid.columns.push_back(std::move(again));
    }
    const Header header{board.scene, board.finish.empty() ? "Step board" : board.finish,
                        facts_of(board.wood, board.geometry, board.observer, board.lights)};
    Page page(grid_width(grid));
    page.sheet.title = board.finish.empty() ? board.scene : board.finish;
    page.sheet.description = "Step board" + (board.scene.empty() ? "" : ": " + board.scene);
    const int body = add_header(page, header);
    for (const Plausible& m : board.plausible) {
        foot.out_of_gamut = foot.out_of_gamut || !m.in_gamut;
    }
    add_foot(page, add_plausible(page, add_grid(page, body, grid), grid_gutter(grid), board), foot);
    return std::move(page.sheet);
}

}  // namespace foretone::layout
