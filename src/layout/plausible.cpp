// The strip's pieces touch each other and the bar below, so that a difference shows as an edge and the eye need not
// jump.

#include "plausible.hpp"

#include <algorithm>
#include <stdexcept>

#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int strip_height = 84, bar_height = 36;

int add_strip(Page& page, int y, int gutter, const Plausible& plausible, const light::Code& computed) {
    const int left = page.left() + gutter, width = page.inner_width() - gutter;
    const int count = int(plausible.codes.size());
    for (int i = 0; i < count; ++i) {
        const int from = left + i * width / count, to = left + (i + 1) * width / count;
        page.sheet.strips.push_back({{from, y, to - from, strip_height}, plausible.codes[std::size_t(i)], false});
    }
    page.sheet.strips.push_back({{left, y + strip_height, width, bar_height}, computed, false});
    return y + strip_height + bar_height + 8;
}

}  // namespace

void check_plausible(const StepBoard& board, const std::string& here) {
    if (board.plausible.empty()) return;
    if (board.plausible.size() != board.lights.size()) {
        throw std::invalid_argument(here + ": one strip of plausible colors a light, " +
                                    std::to_string(board.lights.size()) + ", got " +
                                    std::to_string(board.plausible.size()));
    }
    for (std::size_t l = 0; l < board.lights.size(); ++l) {
        const std::size_t count = board.plausible[l].codes.size();
        if (count == 0 || count > most_plausible) {
            throw std::invalid_argument(here + ", light " + board.lights[l] + ": 1 to 48 plausible colors, got " +
                                        std::to_string(count));
        }
    }
}

int add_plausible(Page& page, int y, int gutter, const StepBoard& board) {
    if (board.plausible.empty()) return y;
    const int left = page.left() + gutter, width = page.inner_width() - gutter;
    y = page.paragraph(left, y, "What your board may turn out as", style::heading, style::ink, width, 2);
    y = page.paragraph(left, y,
                       std::to_string(board.plausible[0].codes.size()) +
                           " boards of the likely 90 %, pale to dark: wood, materials "
                           "and hand each off by as much as they are unsure. The bar below them is the color computed.",
                       style::caption, style::quiet_ink, width, 4) +
        8;
    for (std::size_t l = 0; l < board.lights.size(); ++l) {
        page.paragraph(page.left(), y, board.lights[l], style::heading, style::ink, gutter - 18, 5);
        const Plausible& plausible = board.plausible[l];
        y = add_strip(page, y, gutter, plausible, board.columns.back().by_light[l].code);
        y = page.paragraph(left, y, plausible.words + (plausible.in_gamut ? "" : " †"), style::caption, style::ink,
                           width, 3) +
            16;
    }
    return y + 14;
}

}  // namespace foretone::layout
