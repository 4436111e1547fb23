// The chart's plan: 8 × 5 fields of 14 mm, 16 mm apart, between four marks. A row of greys; then what finished wood may
// look like, four hues from red-brown to yellow by five steps of depth; then a few colors on all sides of these, which
// hold the fit when a board is greener or redder than wood should be.

#include "foretone/photo/chart.hpp"

#include <cmath>

#include "foretone/color/srgb.hpp"

namespace foretone::photo {
namespace {

constexpr int fields_across = 8, fields_down = 5;
constexpr double first_x = 39, first_y = 25, field_step = 16;

struct Lch {
    double l, c, h;
};

constexpr Lch plan[] = {{100, 0, 0},   {86, 0, 0},    {74, 0, 0},    {63, 0, 0},    {52, 0, 0},    {41, 0, 0},
                        {30, 0, 0},    {18, 0, 0},    {80, 20, 58},  {68, 36, 58},  {55, 44, 58},  {42, 32, 58},
                        {30, 20, 58},  {80, 22, 72},  {68, 38, 72},  {55, 44, 72},  {42, 32, 72},  {30, 20, 72},
                        {82, 26, 86},  {70, 42, 86},  {56, 42, 86},  {42, 30, 86},  {30, 16, 86},  {74, 18, 42},
                        {60, 36, 42},  {48, 40, 42},  {36, 32, 42},  {25, 22, 42},  {88, 50, 92},  {64, 56, 80},
                        {45, 50, 28},  {32, 38, 28},  {76, 30, 105}, {50, 24, 110}, {60, 26, 150}, {38, 20, 150},
                        {58, 20, 210}, {55, 26, 260}, {34, 24, 260}, {50, 30, 345}};
static_assert(std::size(plan) == fields_across * fields_down);

std::vector<ChartField> planned() {
    std::vector<ChartField> out;
    for (int k = 0; k < fields_across * fields_down; ++k) {
        const auto& p = plan[k];
        const double turn = p.h * std::acos(-1.0) / 180;
        const color::Lab lab{p.l, p.c * std::cos(turn), p.c * std::sin(turn)};
        const auto code = color::to_display(color::from_lab(lab, color::srgb_white), color::srgb_white).code;
        const auto shown = color::srgb_to_xyz({code[0] / 255.0, code[1] / 255.0, code[2] / 255.0});
        out.push_back({std::string(1, char('A' + k / fields_across)) + char('1' + k % fields_across), code,
                       color::to_lab(shown, color::srgb_white), first_x + field_step * (k % fields_across),
                       first_y + field_step * (k / fields_across)});
    }
    return out;
}

}  // namespace

const std::vector<ChartField>& chart_fields() {
    static const std::vector<ChartField> fields = planned();
    return fields;
}

const std::array<ChartMark, 4>& chart_marks() {
    static constexpr std::array<ChartMark, 4> marks = {
        {{12, 12, 7, 4.8, 2.2}, {178, 12, 7, 4.8, 2.2}, {178, 118, 7, 4.8, 3.3}, {12, 118, 7, 4.8, 2.2}}};
    return marks;
}

}  // namespace foretone::photo
