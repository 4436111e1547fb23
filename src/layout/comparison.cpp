#include "foretone/layout/comparison.hpp"

#include <algorithm>
#include <stdexcept>

#include "grid.hpp"

namespace foretone::layout {
namespace {

constexpr std::size_t most_finishes = 64;
constexpr const char* this_call = "layout::lay_out(Comparison)";

void check_count(std::size_t fields, std::size_t lights, const std::string& place) {
    if (fields != lights) {
        throw std::invalid_argument(place + ": one field a light, " + std::to_string(lights) + ", got " +
                                    std::to_string(fields));
    }
}

void check(const Comparison& c) {
    if (c.lights.empty() || c.lights.size() > most_lights) {
        throw std::invalid_argument(std::string(this_call) + ": 1 to 8 lights, got " + std::to_string(c.lights.size()));
    }
    if (c.finishes.empty() || c.finishes.size() > most_finishes) {
        throw std::invalid_argument(std::string(this_call) + ": 1 to 64 finishes, got " +
                                    std::to_string(c.finishes.size()));
    }
    const auto plain = [&](const std::vector<Field>& fields, const std::string& name) {
        if (!fields.empty()) {
            check_count(fields.size(), c.lights.size(), std::string(this_call) + ", " + name);
        }
        for (std::size_t l = 0; l < fields.size(); ++l) {
            check_field(fields[l], std::string(this_call) + ", " + name + ", light " + c.lights[l]);
        }
    };
    plain(c.bare, "bare");
    plain(c.target, "target");
    for (std::size_t f = 0; f < c.finishes.size(); ++f) {
        const std::string place =
            std::string(this_call) + ", finish " + std::to_string(f + 1) + " (" + c.finishes[f].name + ")";
        check_count(c.finishes[f].by_light.size(), c.lights.size(), place);
        for (std::size_t l = 0; l < c.lights.size(); ++l) {
            const ComparedField& field = c.finishes[f].by_light[l];
            check_field(field.field, place + ", light " + c.lights[l]);
            if (!(field.de00 >= 0 && field.de00 < 1000)) {
                throw std::invalid_argument(place + ", light " + c.lights[l] + ": de00 must be 0 to 1000, got " +
                                            std::to_string(field.de00));
            }
        }
    }
}

/// `role` is ΔE00 to the reference, or what the column is: the control, the reference.
Cell cell_of(const Field& field, const std::string& role, const std::string& words) {
    std::vector<Caption> captions = {{{}, role}, {{}, words}};
    for (Caption& caption : field_captions(field)) {
        captions.push_back(std::move(caption));
    }
    return {field.code, field.in_gamut, std::move(captions)};
}

/// `lead` columns open every row; the others follow, spread evenly.
std::vector<std::vector<std::size_t>> strips_of(std::size_t lead, std::size_t columns) {
    const std::size_t others = columns - lead, free = strip_most - lead;
    const std::size_t rows = std::max<std::size_t>(1, (others + free - 1) / free);
    const std::size_t length = (others + rows - 1) / rows;
    std::vector<std::vector<std::size_t>> strips(rows);
    for (std::size_t r = 0; r < rows; ++r) {
        for (std::size_t c = 0; c < lead; ++c) {
            strips[r].push_back(c);
        }
        for (std::size_t c = lead + r * length; c < std::min(lead + (r + 1) * length, columns); ++c) {
            strips[r].push_back(c);
        }
    }
    return strips;
}

Grid grid_of(const Comparison& c) {
    Grid grid{c.lights, {"ΔE00", "in words"}, {}, {}};
    for (std::string& label : field_labels()) {
        grid.labels.push_back(std::move(label));
    }
    const auto stand = [&](const std::vector<Field>& fields, const std::string& heading, const std::string& role) {
        GridColumn column{heading, "", {}};
        for (const Field& field : fields) {
            column.by_light.push_back(cell_of(field, role, ""));
        }
        grid.columns.push_back(std::move(column));
    };
    if (!c.bare.empty()) {
        stand(c.bare, "Bare wood", "control");
    }
    if (!c.target.empty()) {
        stand(c.target, c.target_name.empty() ? "Target" : c.target_name, "reference");
    }
    for (std::size_t f = 0; f < c.finishes.size(); ++f) {
        const bool reference = f == 0 && c.target.empty();
        GridColumn column{c.finishes[f].name, c.finishes[f].summary, {}};
        for (const ComparedField& compared : c.finishes[f].by_light) {
            column.by_light.push_back(reference ? cell_of(compared.field, "reference", "")
                                                : cell_of(compared.field, number(compared.de00, 1), compared.words));
        }
        grid.columns.push_back(std::move(column));
    }
    grid.strips = strips_of((c.bare.empty() ? 0 : 1) + 1, grid.columns.size());
    return grid;
}

Foot foot_of(const Comparison& c) {
    Foot foot{c.rests_on, c.finishes[0].by_light[0].field.spread_de00, 0, false, c.notes};
    const auto take = [&](const Field& field) {
        foot.least_spread = std::min(foot.least_spread, field.spread_de00);
        foot.most_spread = std::max(foot.most_spread, field.spread_de00);
        foot.out_of_gamut = foot.out_of_gamut || !field.in_gamut;
    };
    std::for_each(c.bare.begin(), c.bare.end(), take);
    std::for_each(c.target.begin(), c.target.end(), take);
    for (const ComparedFinish& finish : c.finishes) {
        for (const ComparedField& compared : finish.by_light) {
            take(compared.field);
        }
    }
    return foot;
}

}  // namespace

Sheet lay_out(const Comparison& comparison) {
    check(comparison);
    const Grid grid = grid_of(comparison);
    const Header header{"Finishes side by side", comparison.scene.empty() ? "Comparison" : comparison.scene,
                        facts_of(comparison.wood, comparison.geometry, comparison.observer, comparison.lights)};
    Page page(grid_width(grid));
    page.sheet.title = header.title;
    page.sheet.description = "Finishes side by side, with the bare wood as control";
    const int body = add_header(page, header);
    add_foot(page, add_grid(page, body, grid), foot_of(comparison));
    return std::move(page.sheet);
}

}  // namespace foretone::layout
