// The chart: fields and marks in mm, everything else out of their way.

#include "foretone/layout/chart_page.hpp"

#include <cmath>

#include "foretone/layout/canvas.hpp"
#include "foretone/photo/chart.hpp"

namespace foretone::layout {
namespace {

constexpr light::Code blank_paper{255, 255, 255}, black_ink{0, 0, 0}, grey_ink{90, 90, 90};

int dots(double mm) { return static_cast<int>(std::lround(mm * chart_dpi / 25.4)); }

// A ring and its disc, its edge mixed of 4 × 4 points a pixel.
light::Image mark_image(const photo::ChartMark& mark) {
    const int side = dots(2 * mark.outer) + 4;
    auto out = light::Image::filled(side, side, blank_paper);
    for (int y = 0; y < side; ++y) {
        for (int x = 0; x < side; ++x) {
            int dark = 0;
            for (int k = 0; k < 16; ++k) {
                const double u = (x + (k % 4 + 0.5) / 4 - side / 2.0) * 25.4 / chart_dpi,
                             v = (y + (k / 4 + 0.5) / 4 - side / 2.0) * 25.4 / chart_dpi, r = std::hypot(u, v);
                dark += r < mark.disc || (r > mark.inner && r < mark.outer);
            }
            const auto code = blend(blank_paper, black_ink, dark * 255 / 16);
            for (std::size_t c = 0; c < 3; ++c) out.rgb[3 * std::size_t(y * side + x) + c] = code[c];
        }
    }
    return out;
}

}  // namespace

light::Image chart_page() {
    Canvas canvas(dots(photo::chart_width_mm), dots(photo::chart_height_mm), blank_paper);
    const TextStyle head{Face::bold, 52}, plain{Face::regular, 33}, small{Face::regular, 22};
    for (const auto& mark : photo::chart_marks()) {
        const auto image = mark_image(mark);
        canvas.place(dots(mark.x_mm) - image.width / 2, dots(mark.y_mm) - image.height / 2, image);
    }
    canvas.text(dots(32), dots(9.5), "Color chart", head, black_ink);
    canvas.text(dots(63), dots(9.5),
                "Print at full size in best quality on matt paper; let it dry for a day. Keep it out of the sun.",
                plain, black_ink);
    for (const auto& field : photo::chart_fields()) {
        const int half = dots(photo::field_mm / 2), x = dots(field.x_mm), y = dots(field.y_mm);
        canvas.fill({x - half, y - half, 2 * half, 2 * half}, field.code);
        // Beside the field, where no reading looks: a thin line says where bare paper is read.
        if (field.code == blank_paper) {
            canvas.fill({x - half, y - half, 2 * half, 1}, grey_ink);
            canvas.fill({x - half, y + half - 1, 2 * half, 1}, grey_ink);
            canvas.fill({x - half, y - half, 1, 2 * half}, grey_ink);
            canvas.fill({x + half - 1, y - half, 1, 2 * half}, grey_ink);
        }
    }
    for (int row = 0; row < 5; ++row) {
        const auto& field = photo::chart_fields()[std::size_t(row * 8)];
        canvas.text(dots(field.x_mm - photo::field_mm / 2 - 5), dots(field.y_mm) + 11, field.name.substr(0, 1), plain,
                    black_ink);
    }
    for (int column = 0; column < 8; ++column) {
        const auto& field = photo::chart_fields()[std::size_t(column)];
        canvas.text(dots(field.x_mm) - 8, dots(field.y_mm - photo::field_mm / 2 - 1.2), field.name.substr(1), small,
                    black_ink);
    }
    const int line = dots(109);
    canvas.fill({dots(45), line, dots(100), 3}, black_ink);
    for (const double end : {45.0, 145.0}) canvas.fill({dots(end) - 1, line - dots(1.5), 3, dots(3)}, black_ink);
    canvas.text(dots(148), line + 11, "100 mm", plain, black_ink);
    canvas.text(dots(32), dots(115.5),
                "Read every field once with an instrument (A1, A2 … E8), or go by the plan alone.", plain, black_ink);
    canvas.text(dots(32), dots(120.5),
                "Lay it beside the boards, in the same plane and light; photograph both sharp and whole,", plain,
                black_ink);
    canvas.text(dots(32), dots(125.5), "nothing burnt out, without flash, filter or portrait look.", plain, black_ink);
    return std::move(canvas).take();
}

}  // namespace foretone::layout
