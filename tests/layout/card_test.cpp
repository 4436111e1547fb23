#include "foretone/layout/card.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "support/pictures/layout_check.hpp"

using namespace foretone;
using layout::Paper;

namespace {

layout::Card card_of(std::size_t rows, std::size_t words) {
    std::string text;
    for (std::size_t i = 0; i < words; ++i) text += (i == 0 ? "" : " ") + std::string("shellac");
    layout::Card c;
    c.title = c.facts = text;
    layout::CardPart part{"Do", {{1, 3, 2}, {{"when", "what", "next"}}, true}, {text, text}, false};
    for (std::size_t i = 0; i < rows; ++i) part.table.rows.push_back({"day 1", text, "last " + std::to_string(i)});
    c.parts = {part, {"Cautions", {}, std::vector<std::string>(9, text), true}};
    c.label = {text, "code"};
    return c;
}

}  // namespace

TEST_CASE("a bench card flows over as many pages as it takes, and loses no row") {
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (const std::size_t rows : {2, 70})
            for (const std::size_t words : {1, 20}) {
                const auto pages = layout::lay_out(card_of(rows, words), paper);
                std::size_t found = 0;
                for (const auto& page : pages) {
                    CHECK(test::layout_fault(page) == "");
                    found += test::lines_with(page, "last ");
                }
                CHECK(found == rows);
                CHECK((pages.size() > 1) == (rows == 70));
            }
}

TEST_CASE("a sticker holds a mix whole, over as many lines as it takes, or sends to the card") {
    const auto laid = [](Paper paper, std::size_t parts) {
        std::string mix = "500 mL";
        for (std::size_t i = 1; i <= parts; ++i) mix += ", part " + std::to_string(i) + " Honey dye 40 mL";
        return layout::lay_out({{"K7QM-4", "Step 1", {"dyed", mix + ", last 45 mL"}, {"mixed ___"}, "Bench"}}, paper);
    };
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        // Two lines hold six parts or so, the sticker twice as many.
        const auto some = laid(paper, 10), many = laid(paper, 40);
        for (const auto* page : {&some, &many}) CHECK(test::layout_fault(*page) == "");
        CHECK(test::lines_with(some, "Honey") > 2);
        CHECK(test::lines_with(some, "last 45 mL") == 1);
        CHECK(test::lines_with(some, "Bench") == 1);
        CHECK(test::lines_with(some, "see the card") == 0);
        CHECK(test::lines_with(many, "Honey") == 0);
        CHECK(test::lines_with(many, "see the card") == 1);
        CHECK(test::lines_with(many, "dyed") == 1);
    }
}

TEST_CASE("a sheet of stickers is full, and what is too much for one is left to the card") {
    for (const Paper paper : {Paper::a4, Paper::letter}) {
        const auto room = layout::sticker_room(paper);
        const std::vector<layout::Sticker> full(
            room.on_a_page(),
            {"K7QM-4", "Step 1", std::vector<std::string>(20, "Honey dye 4 : Water 45"), {"mixed ___"}});
        const auto page = layout::lay_out(full, paper);
        CHECK(test::layout_fault(page) == "");
        CHECK(test::lines_with(page, "K7QM-4") == room.on_a_page());
        CHECK(test::lines_with(page, "mixed ___") == room.on_a_page());
        CHECK(test::lines_with(page, "Honey") < 20 * room.on_a_page());
        CHECK(test::lines_with(page, "see the card") == room.on_a_page());
        auto more = full;
        more.push_back(full[0]);
        CHECK_THROWS_AS(layout::lay_out(more, paper), std::invalid_argument);
    }
}

TEST_CASE("a card's table with a row too short is refused") {
    auto c = card_of(2, 1);
    c.parts[0].table.rows[1].pop_back();
    CHECK_THROWS_AS(layout::lay_out(c, Paper::a4), std::invalid_argument);
}
