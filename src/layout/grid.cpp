#include "grid.hpp"

#include <algorithm>
#include <cmath>

#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int gutter_min = 104, gutter_max = 190, gutter_gap = 18;
constexpr int inner_min = 960, inner_max = 1634;  // a page of at most 297 mm, A4 on its side or A3 upright
constexpr int column_wanted = 250;
constexpr int column_gap = 14;     // keeps neighbours' texts apart; the fields themselves touch
constexpr double number_gap = 13;  // between L*, a* and b*; narrower than the gap to the next column
constexpr std::size_t heading_lines = 3, subheading_lines = 5, light_lines = 5, caption_lines = 4;

int gutter_width(const Grid& grid) {
    double widest = 0;
    for (const std::string& label : grid.labels) {
        widest = std::max(widest, text_width(label, style::caption));
    }
    for (const std::string& light : grid.lights) {
        widest = std::max(widest, text_width(light, style::heading));
    }
    return std::clamp(int(std::ceil(widest)) + gutter_gap, gutter_min, gutter_max);
}

std::size_t widest_strip(const Grid& grid) {
    std::size_t most = 1;
    for (const auto& strip : grid.strips) {
        most = std::max(most, strip.size());
    }
    return most;
}

/// The fewer rows of fields, the taller they are.
int field_height(const Grid& grid) { return 120 + 240 / int(grid.strips.size() * grid.lights.size()); }

/// Room the widest L* and the widest a* or b* of the grid take, pixels.
struct NumberWidths {
    double first = 0, others = 0;
};

NumberWidths number_widths(const Grid& grid) {
    NumberWidths w;
    for (const GridColumn& column : grid.columns) {
        for (const Cell& cell : column.by_light) {
            for (const Caption& c : cell.captions) {
                for (std::size_t k = 0; k < c.numbers.size(); ++k) {
                    double& widest = k == 0 ? w.first : w.others;
                    widest = std::max(widest, text_width(c.numbers[k], style::caption));
                }
            }
        }
    }
    return w;
}

/// A color is not compared well on less than this, pixels; with the target below it a field is at least that of both.
constexpr int least_part = 100, least_with_beside = 240;

/// One strip as it is being placed.
struct Strip {
    Page& page;
    const Grid& grid;
    const std::vector<std::size_t>& members;
    NumberWidths widths;
    int fields_left, fields_width, column_count;

    int x(std::size_t i) const { return fields_left + int(i) * fields_width / column_count; }
    int text_room(std::size_t i) const { return x(i + 1) - x(i) - column_gap; }

    int headings(int y) {
        int end = y;
        for (std::size_t i = 0; i < members.size(); ++i) {
            const GridColumn& c = grid.columns[members[i]];
            const int below =
                page.paragraph(x(i), y, c.heading, style::heading, style::ink, text_room(i), heading_lines);
            end = std::max(end, page.paragraph(x(i), below, c.subheading, style::caption, style::quiet_ink,
                                               text_room(i), subheading_lines));
        }
        return end + 8;
    }

    bool compares() const {
        return std::any_of(members.begin(), members.end(),
                           [this](std::size_t i) { return grid.columns[i].by_light[0].beside.has_value(); });
    }

    int fields(int y, std::size_t light) {
        const int height = std::max(field_height(grid), compares() ? least_with_beside : 0);
        const int room = fields_left - page.left() - gutter_gap;
        page.paragraph(page.left(), y, grid.lights[light], style::heading, style::ink, room, light_lines);
        for (std::size_t i = 0; i < members.size(); ++i) {
            const Cell& cell = grid.columns[members[i]].by_light[light];
            const int lower = cell.beside ? std::max(height / 3, least_part) : 0;
            page.sheet.fields.push_back({{x(i), y, x(i + 1) - x(i), height - lower}, cell.code, !cell.in_gamut});
            if (cell.beside)
                page.sheet.fields.push_back({{x(i), y + height - lower, x(i + 1) - x(i), lower}, *cell.beside, false});
        }
        return y + height + 8;
    }

    int caption(int y, std::size_t light, std::size_t row) {
        const auto caption_of = [&](std::size_t i) -> const Caption& {
            return grid.columns[members[i]].by_light[light].captions[row];
        };
        bool any = false, numeric = false;
        for (std::size_t i = 0; i < members.size(); ++i) {
            numeric = numeric || !caption_of(i).numbers.empty();
            any = any || numeric || !caption_of(i).text.empty();
        }
        if (!any) {
            return y;
        }
        y += numeric && row > 0 ? 6 : 0;  // the color itself is set off from how it compares
        int end = page.line(page.left(), y, grid.labels[row], style::caption, style::quiet_ink);
        for (std::size_t i = 0; i < members.size(); ++i) {
            const Caption& c = caption_of(i);
            if (!c.numbers.empty()) {
                numbers(i, y, c.numbers);
            }
            end =
                std::max(end, page.paragraph(x(i), y, c.text, style::caption, style::ink, text_room(i), caption_lines));
        }
        return end;
    }

    /// L* begins at the column's left edge; a* and b* end at even distances from it, so that signs and digits stand in
    /// line.
    void numbers(std::size_t i, int y, const std::vector<std::string>& values) {
        const double pitch = std::min(widths.others + number_gap, (text_room(i) - widths.first) / 2);
        page.line(x(i), y, values[0], style::caption, style::ink);
        page.line_to(x(i) + widths.first + pitch, y, values[1], style::caption, style::ink);
        page.line_to(x(i) + widths.first + 2 * pitch, y, values[2], style::caption, style::ink);
    }
};

}  // namespace

std::vector<Caption> field_captions(const Field& field) {
    constexpr char digits[] = "0123456789abcdef";
    std::string hex = "#";
    for (const std::uint8_t c : field.code) {
        hex += digits[c >> 4];
        hex += digits[c & 15];
    }
    return {{{number(field.lab[0], 1), number(field.lab[1], 1), number(field.lab[2], 1)}, ""},
            {{}, hex + (field.in_gamut ? "" : " †")},
            {{}, "± " + number(field.spread_de00, 1)}};
}

std::vector<std::string> field_labels() { return {"L*  a*  b*", "sRGB", "spread ΔE00"}; }

int grid_gutter(const Grid& grid) { return gutter_width(grid); }

int grid_width(const Grid& grid) {
    return std::clamp(gutter_width(grid) + int(widest_strip(grid)) * column_wanted, inner_min, inner_max);
}

int add_grid(Page& page, int y, const Grid& grid) {
    const int gutter = gutter_width(grid);
    const NumberWidths widths = number_widths(grid);
    for (const auto& members : grid.strips) {
        Strip strip{
            page, grid, members, widths, page.left() + gutter, page.inner_width() - gutter, int(widest_strip(grid))};
        y = strip.headings(y);
        for (std::size_t light = 0; light < grid.lights.size(); ++light) {
            y = strip.fields(y, light);
            for (std::size_t row = 0; row < grid.labels.size(); ++row) {
                y = strip.caption(y, light, row);
            }
            y += 22;
        }
        y += 14;
    }
    return y;
}

}  // namespace foretone::layout
