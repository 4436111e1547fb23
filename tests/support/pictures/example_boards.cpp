#include "support/pictures/example_boards.hpp"

#include <algorithm>

#include "foretone/color/lab.hpp"
#include "foretone/color/srgb.hpp"

namespace foretone::test {
namespace {

const std::vector<std::string> light_names = {"D65", "A", "LED-B3", "FL11"};

std::uint8_t clamped(double v) { return std::uint8_t(std::clamp(v, 0.0, 255.0)); }

}  // namespace

layout::Field example_field(std::uint8_t r, std::uint8_t g, std::uint8_t b, double spread, bool in_gamut) {
    const color::Lab lab = color::to_lab(color::srgb_to_xyz({r / 255.0, g / 255.0, b / 255.0}), color::srgb_white);
    return {{r, g, b}, "", {lab.l, lab.a, lab.b}, in_gamut, spread};
}

layout::StepBoard example_step_board(std::size_t columns, std::size_t lights) {
    layout::StepBoard board;
    board.scene = "Hall bench, hard maple";
    board.finish = "dye, amber shellac, waterborne";
    board.wood = "hard maple";
    board.geometry = "45/0";
    board.observer = "2°";
    board.lights.assign(light_names.begin(), light_names.begin() + std::ptrdiff_t(lights));
    const char* stages[] = {"Bare", "Damp", "Dry"};
    const char* actions[] = {"sanded to 180", "honey-dye 3 : russet-dye 1 : water 36, wet",
                             "the same dye, dry overnight"};
    for (std::size_t c = 0; c < columns; ++c) {
        layout::StageColumn column;
        column.stage = c + 1 == columns && c > 1 ? "Finished" : c < 3 ? stages[c] : "Coat " + std::to_string(c - 2);
        column.action = c < 3 ? actions[c] : c < 6 ? "amber shellac, 1.5 lb cut" : "waterborne acrylic, satin";
        for (std::size_t l = 0; l < lights; ++l) {
            const double step = c == 1 ? 4 : c == 2 ? 1.5 : double(c);
            const std::uint8_t r = clamped(222 - 7 * step + 6 * double(l)), g = clamped(190 - 10.5 * step);
            const std::uint8_t b = clamped(150 - 11 * step - 8 * double(l));
            column.by_light.push_back(example_field(r, g, b, 0.8 + 0.15 * step, !(c == 4 && l == 1)));
        }
        board.columns.push_back(column);
    }
    for (std::size_t l = 0; l < lights; ++l) {
        layout::Plausible plausible{
            {}, l != 1, "mean L* 58.2 ± 3.1, a* 18.5 ± 1.2, b* 45.9 ± 3.3; 90 % of boards within ΔE00 5.9 of it"};
        for (int i = 0; i < 24; ++i) {
            plausible.codes.push_back(
                {clamped(215 - 2.5 * i), clamped(160 - 3.0 * i), clamped(95 - 2.0 * i + 8 * (i % 3))});
        }
        board.plausible.push_back(plausible);
    }
    board.rests_on = "memory (absorptivity of honey-dye)";
    board.notes = {"The wood's reflectance ends at 400 nm; below that its last value is held."};
    return board;
}

layout::StepBoard wordy_step_board(std::size_t columns, std::size_t lights) {
    layout::StepBoard board = example_step_board(columns, lights);
    board.scene =
        "Built-in bookcase for the music room on the first floor, seen from the stair, with the window seat, the "
        "radiator cover and the two small drawers à côté de la fenêtre";
    board.finish =
        "Water dye twice, blonde dewaxed shellac as a barrier, glaze in the pores, amber shellac, then four coats of "
        "waterborne acrylic rubbed to a satin sheen, матовый";
    board.wood = "European oak, quarter-sawn, from three boards of differing âge, fumed lightly";
    board.lights[0] = "Daylight 6504 K (D65), window side of the studio";
    for (std::size_t c = 0; c < columns; ++c) {
        board.columns[c].action +=
            c % 3 == 0   ? ", wiped on with a folded cotton cloth at 70 g/m², left for ninety minutes and "
                           "then levelled with a grey pad, dust off, and again"
            : c % 3 == 1 ? "; Grünspanßalkohollösungsmittelgemisch"
                         : "";
        board.columns[c].by_light[0].lab = {100, -128.4, -127.9};
    }
    board.columns.back().stage = "Finished, after the last rubbing and wax";
    board.notes.push_back(
        "Two neighbouring boards of one tree differ by ΔE00 ≈ 3; the dye's figures "
        "were typed from a bench book and were not checked; raising of the grain is not modelled, nor are "
        "pores, rays, figure and knots, which a photograph shows and a flat color does not.");
    board.notes.push_back("漆 (a character the typeface does not have)");
    return board;
}

layout::Comparison example_comparison(std::size_t finishes, std::size_t lights, bool target) {
    const layout::StepBoard board = example_step_board(finishes + 1, lights);
    layout::Comparison c{
        board.scene, board.wood, board.geometry, board.observer, board.lights, board.columns[0].by_light, {},
        "",          {},         board.rests_on, board.notes};
    if (target) {
        c.target.assign(lights, example_field(180, 120, 70, 0.4));
        c.target_name = "Client's sample";
    }
    const char* names[] = {"waterborne alone", "dye, amber shellac, waterborne", "boiled linseed oil and wax",
                           "orange shellac, 5 coats"};
    const char* words[] = {"a little lighter", "darker, redder", "clearly darker, yellower and more colorful",
                           "the same to the eye"};
    for (std::size_t f = 0; f < finishes; ++f) {
        layout::ComparedFinish finish{names[f % 4], "2 coats, brushed", {}};
        for (std::size_t l = 0; l < lights; ++l) {
            finish.by_light.push_back(
                {board.columns[f + 1].by_light[l], 0.7 + 1.9 * double(f) + 0.3 * double(l), words[f % 4]});
        }
        c.finishes.push_back(finish);
    }
    return c;
}

}  // namespace foretone::test
