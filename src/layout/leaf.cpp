#include "leaf.hpp"

#include <cmath>

namespace foretone::layout {
namespace look = client_style;

Leaf::Leaf(Paper paper, std::string title) : size(size_of(paper)), page(size.width_px - 2 * look::margin) {
    page.sheet.width = size.width_px;
    page.sheet.height = size.height_px;
    page.sheet.dpi = client_sheet_dpi;
    page.sheet.surround = look::paper;
    page.sheet.title = std::move(title);
    page.sheet.description = "Screens and prints are not the sample";
}

void add_swatch_strip(Page& page, const light::Box& box, const light::Code& code, bool in_gamut,
                      const std::vector<light::Code>& plausible) {
    const int count = int(plausible.size());
    const int chip = count == 0 ? box.width : box.width / look::chip_share;
    page.sheet.strips.push_back({{box.x, box.y, chip, box.height}, code, !in_gamut});
    const int left = box.x + chip + look::strip_gap, width = box.x + box.width - left;
    for (int i = 0; i < count; ++i) {
        const int from = left + i * width / count, to = left + (i + 1) * width / count;
        page.sheet.strips.push_back({{from, box.y, to - from, box.height}, plausible[std::size_t(i)], false});
    }
}

int width_px(const std::string& text, const TextStyle& style) { return int(std::ceil(text_width(text, style))); }

int add_tag(Page& page, int x, int y, const std::string& words, const TextStyle& style) {
    const int high = Page::line_height(style);
    page.sheet.panels.push_back({{x, y, width_px(words, style) + 12, high}, look::alarm});
    page.line(x + 6, y, words, style, look::alarm_ink);
    return y + high;
}

}  // namespace foretone::layout
