#include <catch2/catch.hpp>

#include <cmath>
#include <stdexcept>

#include "foretone/layout/comparison.hpp"
#include "foretone/format/sheet_png.hpp"
#include "support/pictures/example_boards.hpp"
#include "support/pictures/layout_check.hpp"
#include "support/pictures/png_reader.hpp"

using namespace foretone;

TEST_CASE("no comparison clips or overlaps anything, from 1 to 16 finishes and 1 to 4 lights") {
    std::string fault;
    for (std::size_t finishes = 1; finishes <= 16 && fault.empty(); ++finishes) {
        for (std::size_t lights = 1; lights <= 4 && fault.empty(); ++lights) {
            for (const bool target : {false, true}) {
                layout::Comparison c = test::example_comparison(finishes, lights, target);
                c.finishes[0].name =
                    "Wasserlack, zweimal gestrichen, mit einem sehr langen Namen, der nirgends Platz findet";
                c.finishes[0].by_light[0].words =
                    "clearly darker, much redder, a little more colorful, and yellower than all";
                if (finishes % 3 == 0) {
                    c.bare.clear();
                }
                const std::string found = test::layout_fault(layout::lay_out(c));
                if (!found.empty()) {
                    fault = std::to_string(finishes) + " finishes, " + std::to_string(lights) + " lights: " + found;
                }
            }
        }
    }
    CHECK(fault == "");
}

TEST_CASE("the first finish is the reference where there is no target, and the bare wood is the control") {
    const layout::Sheet sheet = layout::lay_out(test::example_comparison(3, 2, false));
    CHECK(test::lines_with(sheet, "Bare wood") == 1);
    CHECK(test::lines_with(sheet, "control") == 2);  // once a light
    CHECK(test::lines_with(sheet, "reference") == 2);
    CHECK(test::lines_with(sheet, "darker, redder") == 2);
    CHECK(test::lines_with(sheet, "2.6") >= 1);               // ΔE00 of the second finish under the first light
    CHECK(test::lines_with(sheet, "a little lighter") == 0);  // the reference does not differ from itself
    CHECK(sheet.fields.size() == 8);
    CHECK(test::lines_with(sheet, "Screens and prints are not the sample.") == 1);
}

TEST_CASE("a target is a reference of its own, and control and reference open every row") {
    const layout::Sheet sheet = layout::lay_out(test::example_comparison(9, 1, true));
    CHECK(test::lines_with(sheet, "Client's sample") == 2);
    CHECK(test::lines_with(sheet, "Bare wood") == 2);
    CHECK(test::lines_with(sheet, "reference") == 2);
    CHECK(sheet.fields.size() == 9 + 2 * 2);
}

TEST_CASE("a comparison is a sound PNG, the same every time") {
    const layout::Comparison c = test::example_comparison(4, 2, true);
    const auto png = format::sheet_png(layout::lay_out(c));
    CHECK(png == format::sheet_png(layout::lay_out(c)));
    const test::PngContent read = test::read_png(png);
    CHECK(read.complaints.empty());
    CHECK(read.image.rgb == layout::paint(layout::lay_out(c)).rgb);
}

TEST_CASE("a comparison that does not add up is refused with its place") {
    using Catch::Matchers::Contains;
    layout::Comparison c = test::example_comparison(2, 2, true);
    c.finishes[1].by_light[1].de00 = std::nan("");
    CHECK_THROWS_WITH(layout::lay_out(c), Contains("finish 2 (dye, amber shellac, waterborne), light A: de00"));
    c = test::example_comparison(2, 2, true);
    c.target.pop_back();
    CHECK_THROWS_WITH(layout::lay_out(c), Contains("target: one field a light, 2, got 1"));
    c = test::example_comparison(2, 2, true);
    c.bare.pop_back();
    CHECK_THROWS_WITH(layout::lay_out(c), Contains("bare: one field a light"));
    c = test::example_comparison(2, 2, true);
    c.finishes.clear();
    CHECK_THROWS_AS(layout::lay_out(c), std::invalid_argument);
    c = test::example_comparison(2, 2, true);
    c.lights.clear();
    CHECK_THROWS_AS(layout::lay_out(c), std::invalid_argument);
}
