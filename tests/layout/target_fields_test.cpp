/// Ladder and candidates: colors with the target touching them.

#include <catch2/catch.hpp>

#include <stdexcept>

#include "foretone/layout/candidates.hpp"
#include "foretone/format/sheet_png.hpp"
#include "foretone/layout/coats_chart.hpp"
#include "support/pictures/example_boards.hpp"
#include "support/pictures/layout_check.hpp"
#include "support/pictures/png_reader.hpp"

using namespace foretone;

namespace {

layout::CoatsChart example_ladder(std::size_t columns, std::size_t lights, bool target) {
    const auto from = test::example_comparison(columns, lights, true);
    layout::CoatsChart chart{from.scene, "oil", "oil-varnish brushed", from.wood, "45/0", "2°", from.lights, {}, "", {},
                             "memory",   {}};
    if (target) {
        chart.target = from.target;
        chart.target_name = "a long name that says what the client brought along, and when, and from where, and why";
    }
    for (std::size_t c = 0; c < columns; ++c)
        chart.columns.push_back({std::to_string(c) + " coats", c == 1 ? "nearest the target; more is not seen" : "",
                                 from.finishes[c].by_light,
                                 c == 0 ? std::vector<double>() : std::vector<double>(lights, 1.5)});
    return chart;
}

layout::Candidates example_candidates(std::size_t columns, std::size_t lights) {
    const auto from = test::example_comparison(columns, lights, true);
    layout::Candidates out{from.scene,  from.wood, "45/0", "2°",     from.lights,      from.bare,
                           from.target, "",        {},     "memory", {"Out of reach."}};
    for (std::size_t c = 0; c < columns; ++c)
        out.columns.push_back({std::to_string(c + 1),
                               "honey-dye 3 + russet-dye 1 + water 36, 70 g/m2; orange-shellac 1.5-lb ×2 sprayed; "
                               "waterborne-acrylic ×2 brushed, 25 GU; "
                               "a wax that has a very long name and is wiped on twice",
                               "4 steps, 7 coats, 3 colors", "12 %", from.finishes[c].by_light});
    return out;
}

}  // namespace

TEST_CASE("no ladder and no candidates clip or overlap anything, from 1 to 14 columns and 1 to 4 lights") {
    std::string fault;
    for (std::size_t columns = 1; columns <= 14 && fault.empty(); ++columns)
        for (std::size_t lights = 1; lights <= 4 && fault.empty(); ++lights) {
            for (const bool target : {false, true})
                if (fault.empty()) fault = test::layout_fault(layout::lay_out(example_ladder(columns, lights, target)));
            if (fault.empty()) fault = test::layout_fault(layout::lay_out(example_candidates(columns, lights)));
            if (!fault.empty())
                fault = std::to_string(columns) + " columns, " + std::to_string(lights) + " lights: " + fault;
        }
    CHECK(fault == "");
}

TEST_CASE("the target touches each color from below, and is left out where there is none") {
    const auto with = layout::lay_out(example_ladder(3, 2, true)),
               without = layout::lay_out(example_ladder(3, 2, false));
    CHECK(with.fields.size() == 12);
    CHECK(without.fields.size() == 6);
    for (std::size_t i = 0; i + 1 < with.fields.size(); i += 2) {
        CHECK(with.fields[i].box.y + with.fields[i].box.height == with.fields[i + 1].box.y);
        CHECK(with.fields[i].box.x == with.fields[i + 1].box.x);
        CHECK(with.fields[i].box.width == with.fields[i + 1].box.width);
    }
    CHECK(test::lines_with(with, "to target") == 2);
    CHECK(test::lines_with(without, "to target") == 0);
    CHECK(test::lines_with(with, "1.5") >= 4);  // what a coat adds
}

TEST_CASE("candidates carry their recipes in full, and are a sound PNG, the same every time") {
    const auto c = example_candidates(3, 2);
    CHECK(test::lines_with(layout::lay_out(c), "honey-dye 3 + russet-dye 1 + water 36") == 3);
    const auto png = format::sheet_png(layout::lay_out(c));
    CHECK(png == format::sheet_png(layout::lay_out(c)));
    CHECK(test::read_png(png).complaints.empty());
    CHECK(test::read_png(format::sheet_png(layout::lay_out(example_ladder(2, 1, true)))).complaints.empty());
}

TEST_CASE("ladder and candidates refuse what they cannot show") {
    auto chart = example_ladder(2, 2, true);
    chart.columns[1].added.pop_back();
    CHECK_THROWS_AS(layout::lay_out(chart), std::invalid_argument);
    chart = example_ladder(2, 2, true);
    chart.target.pop_back();
    CHECK_THROWS_AS(layout::lay_out(chart), std::invalid_argument);
    auto c = example_candidates(2, 2);
    c.columns[0].by_light[1].de00 = -1;
    CHECK_THROWS_AS(layout::lay_out(c), std::invalid_argument);
    c.columns.clear();
    CHECK_THROWS_AS(layout::lay_out(c), std::invalid_argument);
}
