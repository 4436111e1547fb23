#include "client_sheet_words.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::layout {
namespace {
namespace look = client_style;

constexpr int recipe_indent = 34;

std::size_t lines_in(int room, const TextStyle& style) {
    return room <= 0 ? 0 : std::size_t(room / Page::line_height(style));
}

int width_of(const std::string& text, const TextStyle& style) { return int(std::ceil(text_width(text, style))); }

/// The text, its last terms left out until it takes no more than `lines` lines; empty if not even the first term fits.
std::string whole_terms(std::string text, const TextStyle& style, int width, std::size_t lines) {
    constexpr std::size_t most_bytes = 400;  // more than goes beside a board
    if (text.size() > most_bytes) text.erase(std::min(text.rfind(", ", most_bytes), text.size()));
    while (!text.empty() && wrap_text(text, style, width, 99).size() > lines) {
        const auto comma = text.rfind(", ");
        text.erase(comma == std::string::npos ? 0 : comma);
    }
    return text;
}

/// A bold word, then the text on the same line and on lines under it, set in.
int labelled(Page& page, int x, int y, const std::string& label, const std::string& text, double size, int indent,
             int width, std::size_t max_lines) {
    const TextStyle bold{Face::bold, size}, regular{Face::regular, size};
    page.line(x, y, label, bold, look::ink);
    return std::max(page.paragraph(x + indent, y, text, regular, look::ink, width - indent, max_lines),
                    y + Page::line_height(bold));
}

int recipes(Page& page, const ClientSheet& sheet, int x, int y, int width, const look::Terseness& how) {
    const TextStyle text{Face::regular, how.text_px};
    const bool cut = std::any_of(sheet.finishes.begin(), sheet.finishes.end(), [&](const ClientRow& row) {
        return wrap_text(row.recipe, text, width - recipe_indent, 999).size() > how.recipe_lines;
    });
    page.line(x, y, "What is put on, step by step", look::heading, look::ink);
    if (cut) {
        page.line_to(x + width, y, "where it ends in …, the bench card holds the rest", text, look::quiet_ink);
    }
    y += Page::line_height(look::heading) + 2;
    for (std::size_t i = 0; i < sheet.finishes.size(); ++i) {
        y = labelled(page, x, y, letter_of(i), sheet.finishes[i].recipe, how.text_px, recipe_indent, width,
                     how.recipe_lines) +
            2;
    }
    return y;
}

int variation(Page& page, const ClientSheet& sheet, int x, int y, int width, const look::Terseness& how) {
    y = page.line(x, y, "What will vary", look::heading, look::ink) + 2;
    return page.paragraph(x, y, sheet.vary, {Face::regular, how.text_px}, look::ink, width, how.vary_lines);
}

int findings(Page& page, const ClientSheet& sheet, int x, int y, int width, const look::Terseness& how) {
    const TextStyle text{Face::regular, how.text_px};
    y = page.line(x, y, "Mind", look::heading, look::ink) + 2;
    const std::size_t shown = std::min(sheet.mind.size(), how.minds);
    for (std::size_t i = 0; i < shown; ++i) {
        y = page.paragraph(x, y, sheet.mind[i], text, look::ink, width, how.mind_lines) + 3;
    }
    if (shown < sheet.mind.size()) {
        const std::string left_out = std::to_string(sheet.mind.size() - shown);
        y = page.line(x, y, "and " + left_out + " more: see the preview of this scene", text, look::ink);
    }
    return y;
}

/// In two columns of nearly one height: the shorter of all ways to part them.
int cautions(Page& page, const ClientSheet& sheet, int x, int y, int width, int gap, const look::Terseness& how) {
    if (sheet.cautions.empty()) return y;
    y = page.line(x, y, "Take care", look::heading, look::ink) + 2;
    const TextStyle fine{Face::regular, how.fine_px};
    const int column = (width - gap) / 2, high = Page::line_height(fine), apart = 2;
    std::vector<int> heights;
    int all = 0;
    for (const ClientCaution& c : sheet.cautions) {
        heights.push_back(int(wrap_text(c.text, fine, column, 4).size()) * high + apart);
        all += heights.back();
    }
    int first = 0, shortest = all;
    std::size_t in_first = 0;
    for (std::size_t i = 0; i < heights.size(); ++i) {
        first += heights[i];
        if (std::max(first, all - first) < shortest) {
            shortest = std::max(first, all - first);
            in_first = i + 1;
        }
    }
    int at = y;
    for (std::size_t i = 0; i < heights.size(); ++i) {
        if (i == in_first) at = y;
        const int left = i < in_first ? x : x + column + gap;
        at = page.paragraph(left, at, sheet.cautions[i].text, fine, look::ink, column, 4) + apart;
    }
    return y + shortest;
}

/// A line to write on, with its word before it; returns where the line ends.
int blank(Page& page, int x, int baseline_top, int end, const std::string& word, const std::string& filled) {
    const int from = x + width_of(word, look::sign) + 10;
    page.line(x, baseline_top, word, look::sign, look::ink);
    page.line(from + 6, baseline_top, fit_text(filled, look::sign, end - from - 12), look::sign, look::ink);
    page.sheet.rules.push_back({{from, baseline_top + Page::line_height(look::sign) + 1, end - from, 2}, look::line});
    return end;
}

void checkbox(Page& page, int x, int y, int side) {
    page.sheet.rules.push_back({{x, y, side, 2}, look::ink});
    page.sheet.rules.push_back({{x, y + side - 2, side, 2}, look::ink});
    page.sheet.rules.push_back({{x, y, 2, side}, look::ink});
    page.sheet.rules.push_back({{x + side - 2, y, 2, side}, look::ink});
}

}  // namespace

std::string letter_of(std::size_t finish) { return std::string(1, char('A' + finish)); }

int add_client_header(Page& page, const ClientSheet& sheet, int left, int width, const look::Terseness& how) {
    int y = look::margin - 8;
    y = page.paragraph(left, y, "Finishes to choose from", look::overline, look::quiet_ink, width, 1);
    y = page.paragraph(left, y, sheet.title, {Face::bold, how.title_px}, look::ink, width, 2);
    y = page.paragraph(left, y, sheet.wood, look::facts, look::ink, width, 1);
    y = page.paragraph(left, y, sheet.facts, look::small, look::quiet_ink, width, 1) + 8;
    if (sheet.refusals.empty()) {
        return y;
    }
    const int top = y;
    y += 10;
    for (const std::string& r : sheet.refusals) {
        y = page.paragraph(left + 16, y, r, look::tag, look::alarm_ink, width - 32, how.refusal_lines) + 4;
    }
    y += 6;
    page.sheet.panels.push_back({{left, top, width, y - top}, look::alarm});
    return y + 12;
}

int add_row_words(Page& page, const ClientRow& row, const std::string& letter, int left, int y, int width, int room,
                  const look::Terseness& how) {
    const int bottom = y + room, indent = letter.empty() ? 0 : 46, x = left + indent, own = width - indent;
    const TextStyle beside{Face::regular, how.beside_px};
    page.line(left, y - 8, letter, look::letter, look::ink);
    y = page.paragraph(x, y, row.name, {Face::bold, how.name_px}, look::ink, own, how.name_lines) + 2;
    if (row.fails) {
        const int high = Page::line_height(look::tag) + 6;
        const std::string words = "WILL NOT HOLD";
        page.sheet.panels.push_back({{x, y, width_of(words, look::tag) + 20, high}, look::alarm});
        page.line(x + 10, y + 3, words, look::tag, look::alarm_ink);
        y += high + 4;
    }
    y = page.paragraph(x, y, row.sheen, look::sheen, look::ink, own, how.spread_lines > 3 ? 2 : 1) + 2;
    // Where room is shortest, how far boards of a finish that does not hold may differ is the first to go.
    const bool tersest = how.spread_lines < 3;
    const std::string spread = row.fails && tersest ? "" : whole_terms(row.spread, beside, own, how.spread_lines);
    const int spread_height = int(wrap_text(spread, beside, own, how.spread_lines).size()) * Page::line_height(beside);
    const std::size_t lines = lines_in(bottom - y - spread_height - 4, beside);
    const std::string against = whole_terms(row.against, beside, own, std::min<std::size_t>(lines, 4));
    y = page.paragraph(x, y, against, beside, look::quiet_ink, own, 4) + (against.empty() ? 0 : 4);
    return page.paragraph(x, y, spread, beside, look::ink, own, how.spread_lines);
}

int add_client_foot(Page& page, const ClientSheet& sheet, int left, int y, int width, const look::Terseness& how) {
    const std::size_t fine_lines = how.recipe_lines > 1 ? 2 : 1;
    y = page.paragraph(left, y, sheet.boards, {Face::regular, how.fine_px}, look::quiet_ink, width, fine_lines) + 12;
    y = recipes(page, sheet, left, y, width, how) + 10;
    const int gap = look::column_gap, half = look::column_of(width);
    const bool minds = !sheet.mind.empty();
    int end = variation(page, sheet, left, y, minds ? half : width, how);
    if (minds) end = std::max(end, findings(page, sheet, left + half + gap, y, half, how));
    y = cautions(page, sheet, left, end + 10, width, gap, how) + 8;
    const TextStyle fine{Face::regular, how.fine_px};
    y = page.paragraph(left, y, "For the shop: " + sheet.shop, fine, look::quiet_ink, width, fine_lines + 1);
    // Where room is shortest they stay on the bench card.
    if (sheet.notes.empty() || how.recipe_lines < 2) return y;
    return page.paragraph(left, y + 4, "Notes: " + sheet.notes, fine, look::quiet_ink, width, fine_lines);
}

int add_signature(Page& page, const ClientSheet& sheet, int left, int y, int width) {
    page.sheet.rules.push_back({{left, y, width, 3}, look::ink});
    y = page.paragraph(left, y + 14, "Screens and prints are not the sample: sign the real board.", look::strong,
                       look::ink, width, 2) +
        14;
    const int right = left + width, box = 28, line = Page::line_height(look::sign);
    int x = left;
    page.line(x, y, "My choice:", look::sign, look::ink);
    x += width_of("My choice:", look::sign) + 24;
    const bool none =
        std::all_of(sheet.finishes.begin(), sheet.finishes.end(), [](const ClientRow& r) { return r.fails; });
    if (none) {
        page.line(x, y, "none of these will hold", look::sign, look::ink);
    }
    for (std::size_t i = 0; i < sheet.finishes.size(); ++i) {
        if (sheet.finishes[i].fails) continue;
        checkbox(page, x, y + (line - box) / 2, box);
        page.line(x + box + 10, y, letter_of(i), look::sign, look::ink);
        x += box + 70;
    }
    const int middle = left + width * 9 / 20;
    blank(page, middle, y, left + width * 29 / 40, "Real board no.", "");
    blank(page, left + width * 3 / 4, y, right, "Date", sheet.date);
    y += line + 34;
    blank(page, left, y, left + width * 29 / 40, "Signed", "");
    blank(page, left + width * 3 / 4, y, right, "For the shop", "");
    return y + line + 6;
}

}  // namespace foretone::layout
