// Chips are read in rows, as numbers run. A card is cut once on each side: neighbours share their edges, and the marks
// stand in the page's margins, where no card loses by them.

#include "foretone/layout/book.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "leaf.hpp"
#include "plausible.hpp"

namespace foretone::layout {
namespace {
namespace look = client_style;

constexpr std::size_t most_chips = 1000;
const std::string fails_words = "WILL NOT HOLD";
constexpr TextStyle book_title{Face::bold, 34}, book_facts{Face::regular, 20}, chip_number{Face::bold, 20},
    chip_name{Face::regular, 20}, chip_small{Face::regular, 17}, chip_tag{Face::bold, 16};
constexpr TextStyle card_number{Face::bold, 34}, card_name{Face::bold, 24}, card_small{Face::regular, 20},
    card_recipe{Face::regular, 17.5}, card_tag{Face::bold, 19};
constexpr TextStyle index_head{Face::bold, 20}, index_text{Face::regular, 18}, index_part{Face::bold, 24};

constexpr int header_height = 96;  // pages: title and facts
constexpr int chip_gap = 22, chip_picture = 140, chip_strip = 20;
constexpr int card_inset = 26, card_picture = 236, card_strip = 24;
constexpr int hole_mm = 6, hole_from_edge_mm = 9;  // a punch's hole, and its middle from the card's corner
constexpr int mark_length = 36, mark_gap = 12;

struct ChipGrid {
    int left, top, column, row;  // of a cell, its share of the gap with it
    ChipRoom room;
};

int chip_words() { return 2 * Page::line_height(chip_name) + Page::line_height(chip_small); }

ChipGrid chip_grid(Paper paper, BookForm form) {
    const auto size = size_of(paper);
    const int inner = size.width_px - 2 * look::margin, high = size.height_px - 2 * look::margin;
    ChipGrid g{};
    if (form == BookForm::cards) {
        g.room.columns = 3;
        g.column = inner / 3;
        g.room.rows = paper == Paper::a4 ? 4 : 3;
        g.row = std::min(high / int(g.room.rows), 560);
        g.left = (size.width_px - 3 * g.column) / 2;
        g.top = (size.height_px - int(g.room.rows) * g.row) / 2;
        g.room.width = g.column - 2 * card_inset;
        g.room.height = card_picture;
        return g;
    }
    g.room.columns = 5;
    g.column = (inner + chip_gap) / 5;
    g.left = look::margin;
    g.top = look::margin + header_height;
    const int least = chip_picture + look::strip_gap + chip_strip + 4 + chip_words() + 12;
    const int body = size.height_px - look::margin - g.top;
    g.room.rows = std::size_t(body / least);
    g.row = body / int(g.room.rows);
    g.room.width = g.column - chip_gap;
    g.room.height = chip_picture + g.row - least;  // what is left over goes to the boards
    return g;
}

void check(const Book& book, const ChipRoom& room) {
    const std::string here = "layout::lay_out(Book): ";
    if (book.chips.empty() || book.chips.size() > most_chips)
        throw std::invalid_argument(here + "1 to 1000 chips, got " + std::to_string(book.chips.size()));
    for (const Chip& c : book.chips) {
        if (c.picture.width != room.width || c.picture.height != room.height)
            throw std::invalid_argument(here + "chip " + c.number + " has a picture of " +
                                        std::to_string(c.picture.width) + " × " + std::to_string(c.picture.height) +
                                        " pixels, not " + std::to_string(room.width) + " × " +
                                        std::to_string(room.height));
        if (c.plausible.size() > most_plausible)
            throw std::invalid_argument(here + "chip " + c.number + " has more than 48 plausible colors");
    }
}

/// A ring, as a picture: where the hole is to be punched.
light::Image ring(int side) {
    auto image = light::Image::filled(side, side, look::paper);
    const double middle = side / 2.0, radius = middle - 2;
    for (int y = 0; y < side; ++y)
        for (int x = 0; x < side; ++x) {
            const double off = std::abs(std::hypot(x + 0.5 - middle, y + 0.5 - middle) - radius);
            const int coverage = int(std::lround(255 * std::clamp(1.6 - off, 0.0, 1.0)));
            const auto code = blend(look::paper, look::line, coverage);
            std::copy(code.begin(), code.end(), image.rgb.begin() + 3 * (std::ptrdiff_t(y) * side + x));
        }
    return image;
}

class Pages {
public:
    Pages(const Book& book, Paper paper, BookForm form)
        : book_(book), paper_(paper), form_(form), grid_(chip_grid(paper, form)) {
        check(book, grid_.room);
    }

    std::vector<Sheet> all() {
        const std::size_t a_page = grid_.room.on_a_page(), count = book_.chips.size();
        for (std::size_t first = 0; first < count; first += a_page) {
            Leaf leaf(paper_, book_.title);
            const std::size_t end = std::min(count, first + a_page);
            if (form_ == BookForm::pages)
                header(leaf, "No. " + book_.chips[first].number + " to " + book_.chips[end - 1].number);
            else
                cut_marks(leaf);
            for (std::size_t i = first; i < end; ++i) {
                const std::size_t at = i - first;
                const int x = grid_.left + int(at % grid_.room.columns) * grid_.column;
                const int y = grid_.top + int(at / grid_.room.columns) * grid_.row;
                form_ == BookForm::pages ? chip(leaf, book_.chips[i], x, y) : card(leaf, book_.chips[i], x, y);
            }
            sheets_.push_back(leaf.take());
        }
        index();
        return std::move(sheets_);
    }

private:
    void header(Leaf& leaf, const std::string& right) {
        const int y = look::margin - 8;
        const int beside = width_px(right, book_facts) + 30;
        leaf.page.line_to(leaf.right(), y + 12, right, book_facts, look::quiet_ink);
        leaf.page.line(leaf.left, y, fit_text(book_.title, book_title, leaf.width() - beside), book_title, look::ink);
        leaf.page.paragraph(leaf.left, y + Page::line_height(book_title) + 2, book_.facts, book_facts, look::quiet_ink,
                            leaf.width(), 1);
    }

    void board(Leaf& leaf, const Chip& c, int x, int y, int strip) const {
        const auto& room = grid_.room;
        leaf.page.sheet.pictures.push_back(
            {{x, y, room.width, room.height}, c.picture, c.number + ": " + c.name + ", " + c.wood + ", " + c.light});
        add_swatch_strip(leaf.page, {x, y + room.height + look::strip_gap, room.width, strip}, c.code, c.in_gamut,
                         c.plausible);
    }

    void chip(Leaf& leaf, const Chip& c, int x, int y) const {
        const int width = grid_.room.width;
        board(leaf, c, x, y, chip_strip);
        y += grid_.room.height + look::strip_gap + chip_strip + 4;
        // The name runs on beside the number, and below it.
        const int indent = width_px(c.number, chip_number) + 8;
        leaf.page.line(x, y, c.number, chip_number, look::ink);
        y = leaf.page.paragraph(x + indent, y, c.name, chip_name, look::ink, width - indent, 2);
        int right = x + width;
        if (c.fails) {
            right -= width_px(fails_words, chip_tag) + 12;
            add_tag(leaf.page, right, y, fails_words, chip_tag);
        } else {
            const auto light = fit_text(c.light, chip_small, width / 2);
            right -= width_px(light, chip_small);
            leaf.page.line(right, y, light, chip_small, look::quiet_ink);
        }
        leaf.page.line(x, y, fit_text(c.wood, chip_small, right - x - 8), chip_small, look::ink);
    }

    void card(Leaf& leaf, const Chip& c, int x, int y) const {
        const int width = grid_.room.width, inner = x + card_inset;
        const auto px = [](double mm) { return int(std::lround(mm / 25.4 * client_sheet_dpi)); };
        const int hole = px(hole_mm), from = px(hole_from_edge_mm) - hole / 2;
        leaf.page.sheet.pictures.push_back({{x + from, y + from, hole, hole}, ring(hole), "punch here"});
        const int beside = x + from + hole + 16, top = y + card_inset;
        leaf.page.line_to(inner + width, top, c.number, card_number, look::ink);
        const int name_width = inner + width - width_px(c.number, card_number) - 14 - beside;
        leaf.page.paragraph(beside, top + 4, c.name, card_name, look::ink, name_width, 2);
        int at = top + 2 * Page::line_height(card_name) + 10;
        board(leaf, c, inner, at, card_strip);
        at += grid_.room.height + look::strip_gap + card_strip + 6;
        at = leaf.page.paragraph(inner, at, c.wood, card_small, look::ink, width, 1);
        if (c.fails)
            at = add_tag(leaf.page, inner, at, fails_words, card_tag);
        else
            at = leaf.page.paragraph(inner, at, c.light, card_small, look::ink, width, 1);
        const auto left = [&](const TextStyle& style) {
            return std::size_t(std::max(0, (y + grid_.row - 14 - at) / Page::line_height(style)));
        };
        if (left(card_recipe) > 0)
            at = leaf.page.paragraph(inner, at, c.vary, card_recipe, look::ink, width,
                                     std::min<std::size_t>(2, left(card_recipe)));
        if (left(card_recipe) > 0)
            leaf.page.paragraph(inner, at, c.recipe, card_recipe, look::quiet_ink, width,
                                std::min<std::size_t>(3, left(card_recipe)));
    }

    void cut_marks(Leaf& leaf) const {
        auto& rules = leaf.page.sheet.rules;
        const int right = grid_.left + int(grid_.room.columns) * grid_.column,
                  bottom = grid_.top + int(grid_.room.rows) * grid_.row;
        for (std::size_t i = 0; i <= grid_.room.columns; ++i) {
            const int x = grid_.left + int(i) * grid_.column;
            rules.push_back({{x, grid_.top - mark_gap - mark_length, 1, mark_length}, look::ink});
            rules.push_back({{x, bottom + mark_gap, 1, mark_length}, look::ink});
        }
        for (std::size_t i = 0; i <= grid_.room.rows; ++i) {
            const int y = grid_.top + int(i) * grid_.row;
            rules.push_back({{grid_.left - mark_gap - mark_length, y, mark_length, 1}, look::ink});
            rules.push_back({{right + mark_gap, y, mark_length, 1}, look::ink});
        }
    }

    // Two columns, left to right; a further leaf where they are full.
    struct Column {
        int x, y, top;
        bool second = false;
    };

    void index() {
        const int gap = look::column_gap;
        std::vector<Leaf> leaves;
        Column at{};
        const auto open = [&] {
            leaves.emplace_back(paper_, book_.title);
            header(leaves.back(), "Index");
            at = {look::margin, look::margin + header_height, look::margin + header_height, false};
        };
        open();
        const int column = (leaves.back().width() - gap) / 2;
        const auto make_room = [&](int height) {
            if (at.y + height <= leaves.back().bottom()) return;
            if (at.second) return open();
            at = {look::margin + column + gap, at.top, at.top, true};
        };
        const auto part = [&](const std::string& title, const std::vector<IndexEntry>& entries) {
            if (entries.empty()) return;
            make_room(Page::line_height(index_part) + 3 * Page::line_height(index_text));
            at.y = leaves.back().page.line(at.x, at.y, title, index_part, look::ink) + 4;
            for (const auto& e : entries) {
                const auto heads = wrap_text(e.head, index_head, column, 2);
                if (heads.size() == 1 && e.text.empty() &&
                    width_px(heads[0], index_head) + width_px(e.where, index_text) + 20 <= column) {
                    make_room(Page::line_height(index_head));
                    leaves.back().page.line_to(at.x + column, at.y + 1, e.where, index_text, look::ink);
                    at.y = leaves.back().page.line(at.x, at.y, heads[0], index_head, look::ink) + 4;
                    continue;
                }
                make_room(int(heads.size()) * Page::line_height(index_head) + 2 * Page::line_height(index_text));
                for (const auto& l : heads) at.y = leaves.back().page.line(at.x, at.y, l, index_head, look::ink);
                for (const auto* text : {&e.text, &e.where})
                    for (const auto& l : wrap_text(*text, index_text, column, 40)) {
                        make_room(Page::line_height(index_text));
                        const auto& ink = text == &e.text && !e.where.empty() ? look::quiet_ink : look::ink;
                        at.y = leaves.back().page.line(at.x, at.y, l, index_text, ink);
                    }
                at.y += 8;
            }
            at.y += 10;
        };
        part("How to read it", {{"", book_.how_to_read}});
        part("Finishes", book_.finishes);
        part("Woods", book_.woods);
        std::vector<IndexEntry> care;
        for (const auto& c : book_.cautions) care.push_back({"", c.text});
        part("Take care", care);
        part("For the shop", {{"", book_.shop}});
        for (auto& leaf : leaves) sheets_.push_back(leaf.take());
    }

    const Book& book_;
    Paper paper_;
    BookForm form_;
    ChipGrid grid_;
    std::vector<Sheet> sheets_;
};

}  // namespace

ChipRoom chip_room(Paper paper, BookForm form) { return chip_grid(paper, form).room; }

std::vector<Sheet> lay_out(const Book& book, Paper paper, BookForm form) { return Pages(book, paper, form).all(); }

}  // namespace foretone::layout
