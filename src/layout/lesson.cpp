// The front holds what a pupil may see: letters, boards, the question, room to write. On the back words come first and
// the boards take what room they leave, as on the client's sheet.

#include "foretone/layout/lesson.hpp"

#include <algorithm>
#include <stdexcept>

#include "leaf.hpp"
#include "plausible.hpp"

namespace foretone::layout {
namespace {
namespace look = client_style;

constexpr TextStyle title_style{Face::bold, 44}, question_style{Face::bold, 30}, answer_style{Face::bold, 26},
    words_style{Face::regular, 22}, name_style{Face::bold, 22}, figures_style{Face::regular, 19},
    fine_style{Face::regular, 18}, bare_style{Face::regular, 22};
constexpr int lesson_gap = 16, lesson_strip = 22, most_board = 720, least_back_board = 100, least_wide_board = 240;

void check(const Lesson& lesson) {
    const std::string here = "layout::lay_out(Lesson): ";
    const auto count = lesson.boards.size();
    if (count < 2 || count > 6) throw std::invalid_argument(here + "2 to 6 boards, got " + std::to_string(count));
    auto order = lesson.in_order;
    std::sort(order.begin(), order.end());
    for (std::size_t i = 0; i < count; ++i)
        if (order.size() != count || order[i] != i) throw std::invalid_argument(here + "each board in the order once");
    for (const auto& b : lesson.boards)
        if (b.plausible.size() > most_plausible)
            throw std::invalid_argument(here + "board " + b.letter + " has more than 48 plausible colors");
}

int head(Leaf& leaf, const Lesson& lesson, const std::string& side) {
    int y = look::margin - 8;
    leaf.page.line_to(leaf.right(), y, side, look::overline, look::quiet_ink);
    y = leaf.page.paragraph(leaf.left, y, lesson.overline, look::overline, look::quiet_ink, leaf.width() * 3 / 4, 1);
    y = leaf.page.paragraph(leaf.left, y, lesson.title, title_style, look::ink, leaf.width(), 2);
    return leaf.page.paragraph(leaf.left, y, lesson.facts, look::facts, look::quiet_ink, leaf.width(), 1) + 14;
}

void write_line(Leaf& leaf, int from, int to, int y) {
    leaf.page.sheet.rules.push_back({{from, y, to - from, 2}, look::line});
}

/// Lines to write on under the boards, from `y` on; returns where they end.
int to_write(Leaf& leaf, const Lesson& lesson, int y) {
    const int line = Page::line_height(words_style);
    y = leaf.page.paragraph(leaf.left, y, "Each is one of these:", name_style, look::ink, leaf.width(), 1) + 2;
    for (const auto& c : lesson.choices)
        y = leaf.page.paragraph(leaf.left + 24, y, c, words_style, look::ink, leaf.width() - 24, 2);
    y += 22;
    const int count = int(lesson.boards.size()), columns = count <= 3 ? count : (count + 1) / 2,
              wide = leaf.width() / columns;
    for (int i = 0; i < count; ++i) {
        const int x = leaf.left + (i % columns) * wide, at = y + (i / columns) * (line + 26);
        const auto& letter = lesson.boards[std::size_t(i)].letter;
        leaf.page.line(x, at, letter, name_style, look::ink);
        write_line(leaf, x + width_px(letter, name_style) + 12, x + wide - 24, at + line);
    }
    y += ((count + columns - 1) / columns) * (line + 26) + 4;
    leaf.page.line(leaf.left, y, "What I see, and why", name_style, look::ink);
    const int from = leaf.left + width_px("What I see, and why", name_style) + 14;
    write_line(leaf, from, leaf.right(), y + line);
    for (int i = 1; i < 3; ++i) write_line(leaf, leaf.left, leaf.right(), y + line + i * (line + 20));
    y += 3 * (line + 20) + 8;
    leaf.page.line(leaf.left, y, "Name", words_style, look::ink);
    write_line(leaf, leaf.left + 80, leaf.left + leaf.width() * 6 / 10, y + line);
    leaf.page.line(leaf.left + leaf.width() * 13 / 20, y, "Date", words_style, look::ink);
    write_line(leaf, leaf.left + leaf.width() * 13 / 20 + 66, leaf.right(), y + line);
    y += line + 14;
    return leaf.page.paragraph(leaf.left, y, "Drawn from computed colors, not photographed. The answer is on the back.",
                               fine_style, look::quiet_ink, leaf.width(), 1);
}

void board(Leaf& leaf, const TaughtPainter& painter, std::optional<std::size_t> which, const std::string& about,
           const light::Box& box) {
    leaf.page.sheet.pictures.push_back({box, painter(which, box.width, box.height), about});
}

Sheet front(const Lesson& lesson, Paper paper, const TaughtPainter& painter) {
    Leaf leaf(paper, lesson.title);
    int y = head(leaf, lesson, "Question");
    y = leaf.page.paragraph(leaf.left, y, lesson.question, question_style, look::ink, leaf.width(), 4) + 18;
    Leaf scratch(paper, "");
    const int written = to_write(scratch, lesson, 0), top = y;
    const int count = int(lesson.boards.size()), label = Page::line_height(look::letter) + 4;
    // The bare wood takes the last place where one is left; else a low row of its own, as wide as both columns.
    const bool row_of_its_own = lesson.bare && count % 2 == 0;
    const int rows = (count + 1) / 2, bare_label = Page::line_height(bare_style) + 4;
    const int bare_fixed = row_of_its_own ? bare_label + lesson_gap : 0;
    const int room = leaf.bottom() - written - 24 - top - 2 * lesson_gap - rows * (label + lesson_gap) - bare_fixed;
    const int high = std::clamp(2 * room / (2 * rows + (row_of_its_own ? 1 : 0)), 100, most_board);
    const int wide = (leaf.width() - 3 * lesson_gap) / 2, bare_high = std::max(100, high / 2);
    const auto row_top = [&](int row) { return top + lesson_gap / 2 + row * (label + high + lesson_gap); };
    const auto column = [&](int at) { return leaf.left + lesson_gap + at * (wide + lesson_gap); };
    for (int i = 0; i < count; ++i) {
        const auto& b = lesson.boards[std::size_t(i)];
        const int x = column(i % 2), at = row_top(i / 2);
        leaf.page.line(x, at, b.letter, look::letter, look::panel_ink);
        board(leaf, painter, std::size_t(i), b.letter, {x, at + label, wide, high});
    }
    int end = row_top(rows);
    if (lesson.bare) {
        const int x = column(row_of_its_own ? 0 : 1);
        const int at = row_of_its_own ? end : row_top(rows - 1) + label - bare_label;
        leaf.page.line(x, at, "bare wood, to compare", bare_style, look::panel_ink);
        board(leaf, painter, std::nullopt, "bare wood",
              {x, at + bare_label, row_of_its_own ? 2 * wide + lesson_gap : wide, row_of_its_own ? bare_high : high});
        if (row_of_its_own) end += bare_label + bare_high + lesson_gap;
    }
    leaf.page.sheet.panels.push_back({{leaf.left, top, leaf.width(), end - top}, look::panel});
    to_write(leaf, lesson, end + 20);
    return leaf.take();
}

/// Lines that a sentence of the answer and a recipe may have: fewer where the words leave the boards no room.
struct BackLines {
    std::size_t answer, recipe;
};
constexpr BackLines back_settings[] = {{4, 4}, {2, 2}, {1, 1}};

/// All words of the back below its boards.
int back_words(Leaf& leaf, const Lesson& lesson, const BackLines& lines, int y) {
    y = leaf.page.line(leaf.left, y, "What the numbers say", look::heading, look::ink) + 2;
    for (std::size_t i = 1; i < lesson.answer.size(); ++i)
        y = leaf.page.paragraph(leaf.left, y, lesson.answer[i], words_style, look::ink, leaf.width(), lines.answer) + 4;
    y = leaf.page.line(leaf.left, y + 8, "How they were made", look::heading, look::ink) + 2;
    for (const auto& [letter, recipe] : lesson.made) {
        const int indent = letter.empty() ? 0 : 34;
        leaf.page.line(leaf.left, y, letter, {Face::bold, 21}, look::ink);
        y = leaf.page.paragraph(leaf.left + indent, y, recipe, {Face::regular, 21}, look::ink, leaf.width() - indent,
                                lines.recipe) +
            2;
    }
    y = leaf.page.line(leaf.left, y + 8, "Take care", look::heading, look::ink) + 2;
    for (const auto& c : lesson.cautions)
        y = leaf.page.paragraph(leaf.left, y, c.text, fine_style, look::ink, leaf.width(), 3) + 1;
    y = leaf.page.paragraph(leaf.left, y + 8, lesson.mind, fine_style, look::quiet_ink, leaf.width(), 3);
    return leaf.page.paragraph(leaf.left, y, lesson.shop, fine_style, look::quiet_ink, leaf.width(), 3);
}

/// How the boards of the back stand.
struct BackGrid {
    int columns = 0, wide = 0, under = 0, high = 0, room = 0;
    int rows(int count) const { return (count + columns - 1) / columns; }
};

BackGrid back_grid(const Lesson& lesson, int width, int height, int columns) {
    const int count = int(lesson.boards.size());
    BackGrid g;
    g.columns = columns;
    g.wide = (width - (columns + 1) * lesson_gap) / columns;
    std::size_t lines = 1;
    for (const auto& b : lesson.boards)
        lines = std::max(lines, wrap_text(b.letter + ": " + b.name, name_style, g.wide, 2).size());
    g.under = look::strip_gap + lesson_strip + 6 + int(lines) * Page::line_height(name_style) +
              Page::line_height(figures_style) + lesson_gap;
    g.room = (height - lesson_gap) / g.rows(count) - g.under;
    g.high = std::clamp(g.room, least_back_board, g.wide * 3 / 4);
    return g;
}

Sheet back(const Lesson& lesson, Paper paper, const TaughtPainter& painter) {
    Leaf leaf(paper, lesson.title);
    int y = head(leaf, lesson, "Answer");
    y = leaf.page.paragraph(leaf.left, y, lesson.answer.empty() ? "" : lesson.answer.front(), answer_style, look::ink,
                            leaf.width(), 4) +
        14;
    const int top = y, count = int(lesson.boards.size());
    BackGrid grid;
    BackLines lines{};
    for (const auto& setting : back_settings) {
        Leaf scratch(paper, "");
        const int height = leaf.bottom() - top - 20 - back_words(scratch, lesson, setting, 0);
        lines = setting;
        grid = back_grid(lesson, leaf.width(), height, count <= 4 ? count : 3);
        if (count != 4) {
            if (grid.room >= least_back_board) break;
            continue;
        }
        // Four in two rows are larger, as long as the words leave them the height.
        const auto square = back_grid(lesson, leaf.width(), height, 2);
        if (square.room >= least_wide_board) grid = square;
        if (grid.room >= least_back_board) break;
    }
    const int columns = grid.columns, wide = grid.wide, under = grid.under, high = grid.high, rows = grid.rows(count);
    for (int i = 0; i < count; ++i) {
        const auto which = lesson.in_order[std::size_t(i)];
        const auto& b = lesson.boards[which];
        const int x = leaf.left + lesson_gap + (i % columns) * (wide + lesson_gap);
        int at = top + lesson_gap + (i / columns) * (high + under);
        board(leaf, painter, which, b.letter + ": " + b.name, {x, at, wide, high});
        at += high + look::strip_gap;
        add_swatch_strip(leaf.page, {x, at, wide, lesson_strip}, b.code, b.in_gamut, b.plausible);
        at += lesson_strip + 6;
        at = leaf.page.paragraph(x, at, b.letter + ": " + b.name, name_style, look::panel_ink, wide, 2);
        leaf.page.paragraph(x, at, b.figures, figures_style, look::panel_ink, wide, 1);
    }
    const int end = top + lesson_gap + rows * (high + under);
    leaf.page.sheet.panels.push_back({{leaf.left, top, leaf.width(), end - top}, look::panel});
    back_words(leaf, lesson, lines, end + 16);
    return leaf.take();
}

}  // namespace

std::vector<Sheet> lay_out(const Lesson& lesson, Paper paper, const TaughtPainter& painter) {
    check(lesson);
    return {front(lesson, paper, painter), back(lesson, paper, painter)};
}

}  // namespace foretone::layout
