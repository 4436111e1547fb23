#include "foretone/layout/lesson.hpp"

#include <catch2/catch.hpp>
#include <stdexcept>

#include "support/pictures/layout_check.hpp"

using namespace foretone;
using layout::Paper;

namespace {

light::Image flat_taught(std::optional<std::size_t>, int width, int height) {
    return light::Image::filled(width, height, {150, 110, 70});
}

layout::Lesson lesson_of(std::size_t boards, std::size_t words) {
    std::string text;
    for (std::size_t i = 0; i < words; ++i) text += (i == 0 ? "" : " ") + std::string("coats");
    layout::Lesson l;
    l.overline = l.title = l.facts = l.question = l.mind = l.shop = text;
    for (std::size_t i = 0; i < boards; ++i) {
        l.choices.push_back(text);
        l.boards.push_back({std::string(1, static_cast<char>('A' + i)),
                            "secret " + text,
                            "L* 50.0",
                            {180, 130, 80},
                            true,
                            std::vector<light::Code>(i % 2 * 24, light::Code{170, 120, 70})});
        l.in_order.push_back(boards - 1 - i);
        l.made.emplace_back(l.boards.back().letter, text);
    }
    l.answer.assign(words > 20 ? 10 : 4, text);
    l.cautions.assign(9, {"dust", "Sanding dust harms lungs: collect at the tool, wear a mask."});
    return l;
}

}  // namespace

TEST_CASE("nothing of a lesson overlaps or leaves its page, whatever the boards, the words and the paper") {
    std::string fault;
    for (const Paper paper : {Paper::a4, Paper::letter})
        for (const std::size_t boards : {2, 3, 5, 6})
            for (const std::size_t words : {1, 6, 60})
                for (const bool bare : {false, true}) {
                    auto lesson = lesson_of(boards, words);
                    lesson.bare = bare;
                    for (const auto& sheet : layout::lay_out(lesson, paper, flat_taught)) {
                        const auto found = test::layout_fault(sheet);
                        if (!found.empty() && fault.empty())
                            fault = std::to_string(boards) + " boards, " + std::to_string(words) + " words: " + found;
                    }
                }
    CHECK(fault == "");
}

TEST_CASE("the front tells no board's name, the back tells all, in the lesson's order") {
    const auto pages = layout::lay_out(lesson_of(3, 2), Paper::a4, flat_taught);
    REQUIRE(pages.size() == 2);
    CHECK(test::lines_with(pages[0], "secret") == 0);
    CHECK(test::lines_with(pages[0], "L* ") == 0);
    CHECK(pages[0].strips.empty());
    CHECK(test::lines_with(pages[1], "secret") == 3);
    REQUIRE(pages[1].pictures.size() == 3);
    CHECK(pages[1].pictures[0].about.front() == 'C');
    CHECK(pages[1].pictures[0].box.x < pages[1].pictures[1].box.x);
    for (const auto& p : pages[0].pictures) CHECK(p.about.find("secret") == std::string::npos);
}

TEST_CASE("a lesson of one board, or without an order of its boards, is refused") {
    CHECK_THROWS_AS(layout::lay_out(lesson_of(1, 1), Paper::a4, flat_taught), std::invalid_argument);
    auto twice = lesson_of(3, 1);
    twice.in_order = {0, 0, 1};
    CHECK_THROWS_AS(layout::lay_out(twice, Paper::a4, flat_taught), std::invalid_argument);
}
