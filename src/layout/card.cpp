// A row is as high as its highest cell. Cells are wrapped: amounts must be read whole. None is longer than 60
// lines; the last of so many ends in "…".

#include "foretone/layout/card.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "leaf.hpp"

namespace foretone::layout {
namespace {
namespace look = client_style;

constexpr TextStyle card_title{Face::bold, 38}, card_text{Face::regular, 21}, card_bold{Face::bold, 21},
    card_fine{Face::regular, 18}, card_heading{Face::bold, 25};
constexpr int card_cell_gap = 18, card_row_room = 6, tick_side = 22, tick_room = 40;
constexpr std::size_t cell_lines_most = 60;  // of a cell

class CardPages {
public:
    CardPages(const Card& card, Paper paper) : card_(card), paper_(paper) { open(); }

    std::vector<Sheet> all() {
        y_ = leaf().page.paragraph(left(), y_, card_.title, card_title, look::ink, width(), 3);
        y_ = leaf().page.paragraph(left(), y_, card_.facts, card_text, look::ink, width(), 4) + 8;
        for (const auto& part : card_.parts) add(part);
        label();
        std::vector<Sheet> out;
        for (auto& l : leaves_) out.push_back(l.take());
        return out;
    }

private:
    Leaf& leaf() { return leaves_.back(); }
    int left() { return leaf().left; }
    int width() { return leaf().width(); }

    void open() {
        leaves_.emplace_back(paper_, card_.title);
        leaves_.back().page.sheet.description = "A bench card";
        y_ = look::margin - 8;
    }

    void make_room(int height) {
        if (y_ + height > leaf().bottom()) open();
    }

    void add(const CardPart& part) {
        const auto& text = part.fine ? card_fine : card_text;
        make_room(Page::line_height(card_heading) + 3 * Page::line_height(text));
        y_ = leaf().page.line(left(), y_ + 8, part.heading, card_heading, look::ink) + 2;
        if (!part.table.rows.empty()) add(part.table);
        for (const auto& line : part.lines)
            for (const auto& l : wrap_text(line, text, width(), cell_lines_most)) {
                make_room(Page::line_height(text));
                y_ = leaf().page.line(left(), y_, l, text, look::ink);
            }
    }

    void add(const CardTable& t) {
        const int all = std::accumulate(t.shares.begin(), t.shares.end(), 0), indent = t.tick ? tick_room : 0;
        if (all <= 0) throw std::invalid_argument("layout::lay_out(Card): a table without shares");
        for (std::size_t r = 0; r < t.rows.size(); ++r) {
            if (t.rows[r].size() != t.shares.size())
                throw std::invalid_argument("layout::lay_out(Card): a row of " + std::to_string(t.rows[r].size()) +
                                            " cells in a table of " + std::to_string(t.shares.size()));
            const auto& text = r == 0 ? card_bold : card_text;
            std::vector<std::vector<std::string>> cells;
            std::vector<int> at;
            std::size_t lines = 1;
            int x = left() + indent;
            for (std::size_t c = 0; c < t.shares.size(); ++c) {
                const int wide = (width() - indent) * t.shares[c] / all;
                cells.push_back(wrap_text(t.rows[r][c], text, std::max(40, wide - card_cell_gap), cell_lines_most));
                lines = std::max(lines, cells.back().size());
                at.push_back(x);
                x += wide;
            }
            const int high = int(lines) * Page::line_height(text) + card_row_room;
            make_room(high);
            for (std::size_t c = 0; c < cells.size(); ++c) {
                int y = y_;
                for (const auto& l : cells[c]) y = leaf().page.line(at[c], y, l, text, look::ink);
            }
            if (t.tick && r > 0) frame({left(), y_ + 3, tick_side, tick_side});
            leaf().page.sheet.rules.push_back({{left(), y_ + high - 3, width(), 1}, look::line});
            y_ += high;
        }
    }

    void frame(const light::Box& b) {
        auto& rules = leaf().page.sheet.rules;
        rules.push_back({{b.x, b.y, b.width, 2}, look::ink});
        rules.push_back({{b.x, b.y + b.height - 2, b.width, 2}, look::ink});
        rules.push_back({{b.x, b.y, 2, b.height}, look::ink});
        rules.push_back({{b.x + b.width - 2, b.y, 2, b.height}, look::ink});
    }

    void label() {
        if (card_.label.empty()) return;
        std::vector<std::string> lines;
        for (const auto& text : card_.label)
            for (auto& l : wrap_text(text, card_text, width() - 40, 4)) lines.push_back(std::move(l));
        const int high = int(lines.size()) * Page::line_height(card_text) + 28;
        y_ += 16;
        make_room(high);
        frame({left(), y_, width(), high});
        int y = y_ + 14;
        for (const auto& l : lines) y = leaf().page.line(left() + 20, y, l, card_text, look::ink);
        y_ += high;
    }

    const Card& card_;
    Paper paper_;
    std::vector<Leaf> leaves_;
    int y_ = 0;
};

int px_of(double mm) { return int(std::lround(mm / 25.4 * client_sheet_dpi)); }

void add_sticker(Leaf& leaf, const Sticker& s, const light::Box& b, bool small) {
    const TextStyle text{Face::regular, small ? 18.0 : 21.0}, bold{Face::bold, small ? 21.0 : 25.0},
        code{Face::bold, small ? 30.0 : 34.0};
    auto& rules = leaf.page.sheet.rules;
    rules.push_back({{b.x, b.y, b.width, 1}, look::panel});
    rules.push_back({{b.x, b.y + b.height - 1, b.width, 1}, look::panel});
    rules.push_back({{b.x, b.y, 1, b.height}, look::panel});
    rules.push_back({{b.x + b.width - 1, b.y, 1, b.height}, look::panel});
    const int x = b.x + 24, right = b.x + b.width - 24, wide = right - x;
    int y = b.y + 14;
    leaf.page.line_to(right, y, s.code, code, look::ink);
    const int beside = wide - width_px(s.code, code) - 16, below = y + Page::line_height(code);
    y = leaf.page.line(x, y, fit_text(s.head, bold, beside), bold, look::ink);
    const int high = Page::line_height(text), foot = b.y + b.height - 10 - int(s.to_write.size()) * high;
    // Whole or not at all: half a mix is a wrong mix.
    bool all = true;
    for (std::size_t i = 0; i < s.lines.size() && all; ++i) {
        const int room = y < below ? beside : wide, kept = i + 1 < s.lines.size() ? high : 0;
        const auto wrapped = wrap_text(s.lines[i], text, room, cell_lines_most);
        all = y + int(wrapped.size()) * high + kept <= foot;
        for (const auto& l : all ? wrapped : std::vector<std::string>{fit_text("see the card", text, room)})
            y = leaf.page.line(x, y, l, text, look::ink);
    }
    if (all && y + high <= foot)
        y = leaf.page.line(x, y, fit_text(s.if_room, text, y < below ? beside : wide), text, look::ink);
    y = foot;
    for (const auto& line : s.to_write) y = leaf.page.line(x, y, fit_text(line, text, wide), text, look::ink);
}

}  // namespace

std::vector<Sheet> lay_out(const Card& card, Paper paper) { return CardPages(card, paper).all(); }

StickerRoom sticker_room(Paper paper) {
    if (paper == Paper::letter) return {12.7, 3.97, 101.6, 50.8, 4.76, 5};
    return {15.15, 4.65, 99.1, 38.1, 2.5, 7};
}

Sheet lay_out(const std::vector<Sticker>& stickers, Paper paper) {
    const auto room = sticker_room(paper);
    if (stickers.size() > room.on_a_page())
        throw std::invalid_argument("layout::lay_out(Sticker): " + std::to_string(stickers.size()) +
                                    " stickers on a page of " + std::to_string(room.on_a_page()));
    Leaf leaf(paper, "Labels");
    for (std::size_t i = 0; i < stickers.size(); ++i) {
        const double x = room.left_mm + static_cast<double>(i % 2) * (room.width_mm + room.gap_mm),
                     y = room.top_mm + static_cast<double>(i / 2) * room.height_mm;
        add_sticker(leaf, stickers[i], {px_of(x), px_of(y), px_of(room.width_mm), px_of(room.height_mm)},
                    paper == Paper::a4);
    }
    return leaf.take();
}

}  // namespace foretone::layout
