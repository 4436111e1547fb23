#include <algorithm>
#include <catch2/catch.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <stdexcept>

#include "foretone/color/srgb.hpp"
#include "foretone/layout/step_board.hpp"
#include "foretone/format/sheet_png.hpp"
#include "support/pictures/example_boards.hpp"
#include "support/pictures/layout_check.hpp"
#include "support/pictures/png_reader.hpp"
#include "support/tolerance.hpp"

using namespace foretone;

TEST_CASE("no step board clips or overlaps anything, from 1 to 20 stages and 1 to 4 lights, wordy or not") {
    std::string fault;
    for (std::size_t columns = 1; columns <= 20 && fault.empty(); ++columns) {
        for (std::size_t lights = 1; lights <= 4 && fault.empty(); ++lights) {
            for (const auto& board :
                 {test::example_step_board(columns, lights), test::wordy_step_board(columns, lights)}) {
                const std::string found = test::layout_fault(layout::lay_out(board));
                if (!found.empty()) {
                    fault = std::to_string(columns) + " stages, " + std::to_string(lights) + " lights: " + found;
                }
            }
        }
    }
    CHECK(fault == "");
}

TEST_CASE("the check of layouts finds what is planted") {
    const layout::Sheet sound = layout::lay_out(test::example_step_board(3, 2));
    layout::Sheet sheet = sound;
    sheet.texts[3].box.y = sheet.texts[2].box.y;
    sheet.texts[3].box.x = sheet.texts[2].box.x;
    CHECK(test::layout_fault(sheet) != "");
    sheet = sound;
    sheet.texts.back().box.width = sheet.width;
    CHECK(test::layout_fault(sheet) != "");
    sheet = sound;
    sheet.texts.back().box.y = sheet.fields[0].box.y + 5;
    sheet.texts.back().box.x = sheet.fields[0].box.x + 5;
    CHECK(test::layout_fault(sheet) != "");
    sheet = sound;
    sheet.fields[1].box.x -= 1;
    CHECK(test::layout_fault(sheet) != "");
}

TEST_CASE("neighbouring stages touch edge to edge under every light") {
    for (const std::size_t columns : {2u, 5u, 8u, 14u}) {
        const layout::Sheet sheet = layout::lay_out(test::example_step_board(columns, 2));
        std::size_t gaps = 0, edges = 0;
        for (std::size_t i = 1; i < sheet.fields.size(); ++i) {
            const light::Box& before = sheet.fields[i - 1].box;
            const light::Box& here = sheet.fields[i].box;
            if (before.y == here.y) {
                ++edges;
                gaps += before.x + before.width != here.x || before.height != here.height;
            }
        }
        CHECK(gaps == 0);
        CHECK(edges == 2 * (columns - 1));  // also across rows: the stage that ends a row opens the next
    }
}

TEST_CASE("every pixel of a field that is not marked has the field's code") {
    const layout::StepBoard board = test::example_step_board(5, 2);
    const layout::Sheet sheet = layout::lay_out(board);
    const test::PngContent read = test::read_png(format::sheet_png(layout::lay_out(board)));
    std::size_t wrong = 0, marked = 0;
    for (const layout::PlacedField& f : sheet.fields) {
        marked += f.cut_corner;
        for (int y = f.box.y; y < f.box.y + f.box.height; ++y) {
            for (int x = f.box.x; x < f.box.x + f.box.width; ++x) {
                wrong += !f.cut_corner && read.image.at(x, y) != f.code;
            }
        }
    }
    REQUIRE(sheet.fields.size() == 10);
    CHECK(sheet.fields[1].code == board.columns[1].by_light[0].code);
    CHECK(sheet.fields[5].code == board.columns[0].by_light[1].code);
    CHECK(wrong == 0);
    CHECK(marked == 1);
}

TEST_CASE(
    "the strip of plausible colors touches edge to edge in line with the fields, over a bar of the computed color") {
    for (const std::size_t columns : {1, 5, 14}) {
        const layout::StepBoard board = test::wordy_step_board(columns, 2);
        const layout::Sheet sheet = layout::lay_out(board);
        REQUIRE(sheet.strips.size() == 2 * 25);
        const int left = sheet.fields[0].box.x;
        int gaps = 0;
        for (std::size_t l = 0; l < 2; ++l) {
            const auto* pieces = &sheet.strips[l * 25];
            const light::Box& bar = pieces[24].box;
            for (std::size_t i = 0; i < 24; ++i) {
                CHECK(pieces[i].code == board.plausible[l].codes[i]);
                gaps += i > 0 && pieces[i].box.x != pieces[i - 1].box.x + pieces[i - 1].box.width;
                gaps += pieces[i].box.y + pieces[i].box.height != bar.y;
            }
            CHECK(pieces[0].box.x == left);
            CHECK(bar.x == left);
            CHECK(bar.width == pieces[23].box.x + pieces[23].box.width - left);
            CHECK(pieces[24].code == board.columns.back().by_light[l].code);
        }
        CHECK(gaps == 0);
        CHECK(test::lines_with(sheet, "What your board may turn out as") == 1);
        const test::PngContent read = test::read_png(format::sheet_png(sheet));
        const light::Box& piece = sheet.strips[7].box;
        CHECK(read.image.at(piece.x + piece.width - 1, piece.y) == board.plausible[0].codes[7]);
    }
    layout::StepBoard without = test::example_step_board(3, 2);
    without.plausible.clear();
    CHECK(layout::lay_out(without).strips.empty());
}

TEST_CASE("a step board says what it shows, what it rests on and what it is not") {
    const layout::Sheet sheet = layout::lay_out(test::example_step_board(5, 2));
    for (const char* part : {"Hall bench, hard maple", "dye, amber shellac, waterborne", "Wood: hard maple",
                             "Geometry: 45/0", "Observer: 2\xC2\xB0", "Lights: D65, A", "Coat 1", "sanded to 180",
                             "Rests on: memory", "0.8 to 1.4", "below that its last value is held", "cut corner"}) {
        INFO(part);
        CHECK(test::lines_with(sheet, part) == 1);
    }
    CHECK(test::lines_with(sheet, "Screens and prints are not the sample.") == 1);
    CHECK(test::lines_with(sheet, "#debe96") == 1);
    CHECK(test::lines_with(sheet, "\xE2\x80\xA0") ==
          3);  // beside the reduced color's code, under its strip, and in the legend
    CHECK(test::lines_with(layout::lay_out(test::example_step_board(3, 1)), "\xE2\x80\xA0") == 0);
}

TEST_CASE("every line stands out from the surround by a contrast of 7 or more, and the surround is neutral") {
    const layout::Sheet sheet = layout::lay_out(test::wordy_step_board(9, 2));
    // Contrast ratio and relative luminance as WCAG 2.1 defines them; 7 is its level AAA for small text.
    const auto luminance = [](const light::Code& c) {
        return 0.2126 * color::srgb_decode(c[0] / 255.0) + 0.7152 * color::srgb_decode(c[1] / 255.0) +
               0.0722 * color::srgb_decode(c[2] / 255.0);
    };
    double least = 1e9;
    for (const layout::PlacedText& t : sheet.texts) {
        least = test::least_of(least, (luminance(sheet.surround) + 0.05) / (luminance(t.ink) + 0.05));
    }
    CHECK(least >= 7);
    CHECK(sheet.surround[0] == sheet.surround[1]);
    CHECK(sheet.surround[1] == sheet.surround[2]);
}

TEST_CASE("numbers have a real minus sign and no negative zero") {
    layout::StepBoard board = test::example_step_board(1, 1);
    board.columns[0].by_light[0].lab = {52.349, -0.04, -7.25};
    const layout::Sheet sheet = layout::lay_out(board);
    CHECK(test::lines_with(sheet, "52.3") == 1);
    CHECK(test::lines_with(sheet,
                           "\xE2\x88\x92"
                           "0.0") == 0);
    CHECK(test::lines_with(sheet,
                           "\xE2\x88\x92"
                           "7.2") == 1);
}

TEST_CASE("the file states a size of 150 pixels an inch and is no wider than A4 on its side") {
    const layout::Sheet sheet = layout::lay_out(test::wordy_step_board(14, 3));
    CHECK(sheet.width / 150.0 * 25.4 <= 297.1);  // ISO 216, to the pixel
    const test::PngContent read = test::read_png(format::sheet_png(sheet));
    CHECK(read.x_per_unit == 5906);  // computed from 150 / 0.0254
    CHECK(read.srgb_intent == 0);
    CHECK(read.complaints.empty());
    CHECK(std::any_of(read.texts.begin(), read.texts.end(), [](const auto& t) { return t.first == "Title"; }));
}

TEST_CASE("boards are the same bytes every time") {
    CHECK(format::sheet_png(layout::lay_out(test::wordy_step_board(10, 3))) ==
          format::sheet_png(layout::lay_out(test::wordy_step_board(10, 3))));
}

TEST_CASE("a step board that does not add up is refused with its place") {
    using Catch::Matchers::Contains;
    const auto refused = [](auto spoil) {
        layout::StepBoard board = test::example_step_board(3, 2);
        spoil(board);
        try {
            layout::lay_out(board);
        } catch (const std::invalid_argument& e) {
            return std::string(e.what());
        }
        return std::string("accepted");
    };
    CHECK_THAT(refused([](auto& b) { b.lights.clear(); }), Contains("1 to 8 lights, got 0"));
    CHECK_THAT(refused([](auto& b) { b.plausible.pop_back(); }),
               Contains("one strip of plausible colors a light, 2, got 1"));
    CHECK_THAT(refused([](auto& b) { b.plausible[1].codes.clear(); }),
               Contains("light A: 1 to 48 plausible colors, got 0"));
    CHECK_THAT(refused([](auto& b) { b.columns.clear(); }), Contains("1 to 64 columns, got 0"));
    CHECK_THAT(refused([](auto& b) { b.columns.resize(65, b.columns[0]); }), Contains("got 65"));
    CHECK_THAT(refused([](auto& b) { b.columns[1].by_light.pop_back(); }),
               Contains("column 2 (Damp)") && Contains("got 1"));
    CHECK_THAT(refused([](auto& b) { b.columns[2].by_light[1].lab[1] = std::nan(""); }),
               Contains("column 3 (Finished), light A") && Contains("a*"));
    CHECK_THAT(refused([](auto& b) { b.columns[0].by_light[0].spread_de00 = -1; }),
               Contains("spread_de00") && Contains("-1"));
    CHECK_THAT(refused([](auto& b) { b.columns[0].by_light[0].hex = "#debe97"; }), Contains("#debe96, got #debe97"));
    CHECK(refused([](auto& b) { b.columns[0].by_light[0].hex = "#DEBE96"; }) == "accepted");
}

TEST_CASE("example boards can be written to a folder for looking at") {
    const std::filesystem::path folder = std::filesystem::temp_directory_path() / "foretone-picture-examples";
    std::filesystem::create_directories(folder);
    const auto write = [&](const std::string& name, const std::vector<std::uint8_t>& png) {
        std::ofstream file(folder / name, std::ios::binary);
        file.write(reinterpret_cast<const char*>(png.data()), std::streamsize(png.size()));
        file.close();
        CHECK(std::filesystem::file_size(folder / name) == png.size());
    };
    write("step-2x1.png", format::sheet_png(layout::lay_out(test::example_step_board(2, 1))));
    write("step-5x2.png", format::sheet_png(layout::lay_out(test::example_step_board(5, 2))));
    write("step-14x3.png", format::sheet_png(layout::lay_out(test::wordy_step_board(14, 3))));
    write("comparison-3x2.png", format::sheet_png(layout::lay_out(test::example_comparison(3, 2, false))));
    write("comparison-9x3.png", format::sheet_png(layout::lay_out(test::example_comparison(9, 3, true))));
}
