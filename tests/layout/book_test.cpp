#include "foretone/layout/book.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "support/pictures/layout_check.hpp"

using namespace foretone;
using layout::BookForm;
using layout::Paper;

namespace {

std::string many_words(const std::string& word, std::size_t count) {
    std::string out;
    for (std::size_t i = 0; i < count; ++i) out += (i == 0 ? "" : " ") + word;
    return out;
}

layout::Book book_of(std::size_t chips, std::size_t words, Paper paper, BookForm form) {
    const auto room = layout::chip_room(paper, form);
    layout::Book b;
    b.title = many_words("Book", words);
    b.facts = b.how_to_read = b.shop = many_words("colors,", words);
    for (std::size_t i = 0; i < chips; ++i)
        b.chips.push_back({std::to_string(i + 1),
                           many_words("shellac", words),
                           many_words("oak", words),
                           many_words("Daylight", words),
                           many_words("vary", words),
                           many_words("1 Honey;", words),
                           i % 7 == 3,
                           {180, 130, 80},
                           i % 5 != 2,
                           std::vector<light::Code>(i % 3 == 0 ? 0 : 12, light::Code{170, 120, 70}),
                           light::Image::filled(room.width, room.height, {150, 110, 70})});
    for (std::size_t i = 0; i < chips / 2 + 1; ++i) {
        b.finishes.push_back(
            {many_words("finish", words), many_words("2 coats,", words), many_words("No. 12,", words)});
        b.woods.push_back({many_words("wood", words), "", many_words("1 to 4", words)});
    }
    b.cautions.assign(9, {"dust", many_words("Mind the dust.", 8)});
    return b;
}

/// The rings of cards are small pictures on purpose.
layout::Sheet without_rings(layout::Sheet s) {
    std::erase_if(s.pictures, [](const auto& p) { return p.about == "punch here"; });
    return s;
}

}  // namespace

TEST_CASE("nothing in a swatch book overlaps or leaves its page, whatever the chips, the words and the paper") {
    std::string fault;
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (const BookForm form : {BookForm::pages, BookForm::cards})
            for (const std::size_t chips : {1, 43})
                for (const std::size_t words : {1, 30})
                    for (const auto& sheet : layout::lay_out(book_of(chips, words, paper, form), paper, form)) {
                        const auto found = test::layout_fault(without_rings(sheet));
                        if (!found.empty() && fault.empty()) fault = std::to_string(words) + " words: " + found;
                        CHECK(sheet.width == layout::size_of(paper).width_px);
                    }
    CHECK(fault == "");
}

TEST_CASE("a page holds as many chips as go on it, in rising numbers, and the index comes last") {
    const auto pages = layout::lay_out(book_of(43, 1, Paper::a4, BookForm::pages), Paper::a4, BookForm::pages);
    const auto room = layout::chip_room(Paper::a4, BookForm::pages);
    CHECK(room.on_a_page() >= 40);  // 200 chips on five pages
    CHECK(layout::chip_room(Paper::letter, BookForm::pages).on_a_page() >= 35);
    CHECK(pages.size() >= 3);
    CHECK(pages[0].pictures.size() == room.on_a_page());
    CHECK(pages[1].pictures.size() == 43 - room.on_a_page());
    CHECK(test::lines_with(pages[0], "WILL NOT HOLD") > 0);
    CHECK(test::lines_with(pages.back(), "Index") == 1);
    CHECK(pages.back().pictures.empty());
}

TEST_CASE("cards have cut marks in the margins alone, and each its ring") {
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        const auto room = layout::chip_room(paper, BookForm::cards);
        const auto page = layout::lay_out(book_of(12, 5, paper, BookForm::cards), paper, BookForm::cards).front();
        std::size_t rings = 0;
        int left = page.width, right = 0, top = page.height, bottom = 0;
        for (const auto& p : page.pictures) {
            rings += p.about == "punch here";
            left = std::min(left, p.box.x), right = std::max(right, p.box.x + p.box.width);
            top = std::min(top, p.box.y), bottom = std::max(bottom, p.box.y + p.box.height);
        }
        CHECK(rings == room.on_a_page());
        CHECK(page.rules.size() == 2 * (room.columns + 1) + 2 * (room.rows + 1));
        for (const auto& r : page.rules) {
            const bool beside = r.box.x + r.box.width < left || r.box.x > right;
            const bool above = r.box.y + r.box.height < top || r.box.y > bottom;
            CHECK((beside || above));
        }
    }
}

TEST_CASE("a book without chips, or with a picture of another size, is refused") {
    auto b = book_of(2, 1, Paper::a4, BookForm::pages);
    b.chips[1].picture = light::Image::filled(10, 10, {0, 0, 0});
    CHECK_THROWS_AS(layout::lay_out(b, Paper::a4, BookForm::pages), std::invalid_argument);
    b.chips.clear();
    CHECK_THROWS_AS(layout::lay_out(b, Paper::a4, BookForm::pages), std::invalid_argument);
}
