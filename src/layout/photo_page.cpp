#include "foretone/layout/photo_page.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "foretone/base/parallel.hpp"
#include "foretone/color/srgb.hpp"
#include "foretone/layout/canvas.hpp"
#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int cell_gap = 24, line = 26, below_name = 8;
constexpr int narrowest = 460;  // a caption needs this much

void paste(light::Image& page, const light::Image& image, int x, int y) {
    for (int row = 0; row < image.height; ++row) {
        const auto* from = &image.rgb[3 * std::size_t(row) * std::size_t(image.width)];
        std::copy_n(from, 3 * image.width,
                    &page.rgb[3 * (std::size_t(y + row) * std::size_t(page.width) + std::size_t(x))]);
    }
}

struct Text {
    std::vector<std::string> lines;
    TextStyle style;
    light::Code ink;
};

int height(const Text& t) {
    return static_cast<int>(t.lines.size()) * line * static_cast<int>(std::ceil(t.style.size_px / 20));
}

int draw(Canvas& canvas, const Text& t, int x, int y) {
    const int step = line * static_cast<int>(std::ceil(t.style.size_px / 20));
    for (const auto& l : t.lines) {
        canvas.text(x, y + static_cast<int>(std::ceil(text_ascent(t.style))), l, t.style, t.ink);
        y += step;
    }
    return y;
}

}  // namespace

light::Image shrunk(const light::Image& image, int width, int height) {
    const double by = std::max({1.0, double(image.width) / width, double(image.height) / height});
    if (by <= 1) return image;
    const int w = std::max(1, static_cast<int>(image.width / by)), h = std::max(1, static_cast<int>(image.height / by));
    std::array<float, 256> linear{};
    for (std::size_t i = 0; i < 256; ++i) linear[i] = static_cast<float>(color::srgb_decode(double(i) / 255));
    std::vector<std::uint8_t> code(65536);
    for (std::size_t i = 0; i < code.size(); ++i)
        code[i] = static_cast<std::uint8_t>(std::lround(255 * color::srgb_encode(double(i) / 65535)));
    light::Image out{w, h, std::vector<std::uint8_t>(3 * std::size_t(w) * std::size_t(h))};
    // Whole source pixels whose middles lie in the target's area: at these factors edges need no more care.
    base::parallel_rows(h, 0, [&](int first, int end) {
        for (int y = first; y < end; ++y) {
            const int y0 = static_cast<int>(std::int64_t(y) * image.height / h),
                      y1 = std::max(y0 + 1, static_cast<int>(std::int64_t(y + 1) * image.height / h));
            for (int x = 0; x < w; ++x) {
                const int x0 = static_cast<int>(std::int64_t(x) * image.width / w),
                          x1 = std::max(x0 + 1, static_cast<int>(std::int64_t(x + 1) * image.width / w));
                float sum[3] = {};
                for (int v = y0; v < y1; ++v) {
                    const auto* from = &image.rgb[3 * (std::size_t(v) * std::size_t(image.width) + std::size_t(x0))];
                    for (int u = x0; u < x1; ++u, from += 3)
                        for (int c = 0; c < 3; ++c) sum[c] += linear[from[c]];
                }
                const float n = float((y1 - y0) * (x1 - x0));
                auto* to = &out.rgb[3 * (std::size_t(y) * std::size_t(w) + std::size_t(x))];
                for (int c = 0; c < 3; ++c) to[c] = code[static_cast<std::size_t>(sum[c] / n * 65535 + 0.5F)];
            }
        }
    });
    return out;
}

light::Image photo_page(const PhotoPage& page) {
    const std::size_t n = page.panels.size();
    if (n == 0 || n > 64) throw std::invalid_argument("layout::photo_page: 1 to 64 panels, got " + std::to_string(n));
    const int shown_width = page.panels.front().image.width, shown_height = page.panels.front().image.height;
    for (const auto& p : page.panels) {
        if (p.image.width != shown_width || p.image.height != shown_height)
            throw std::invalid_argument("layout::photo_page: panels of two sizes");
    }
    const int across = static_cast<int>(n <= 4 ? std::min<std::size_t>(n, 2) : 3),
              down = (static_cast<int>(n) + across - 1) / across;
    const int cell = std::max(shown_width, narrowest),
              width = 2 * style::margin + across * cell + (across - 1) * cell_gap;
    const double room = width - 2 * style::margin;

    std::vector<Text> head;
    head.push_back({wrap_text(page.scene, style::title, room, 2), style::title, style::ink});
    if (!page.subheading.empty())
        head.push_back({wrap_text(page.subheading, style::overline, room, 2), style::overline, style::quiet_ink});
    if (!page.alarm.empty())
        head.push_back({wrap_text(page.alarm, style::heading, room, 3), style::heading, style::ink});
    std::vector<Text> foot;
    for (const auto& note : page.notes)
        foot.push_back({wrap_text(note, style::body, room, 4), style::body, style::quiet_ink});

    std::vector<std::vector<Text>> texts(n);
    std::vector<int> row_heights(static_cast<std::size_t>(down), 0);
    for (std::size_t i = 0; i < n; ++i) {
        const auto& p = page.panels[i];
        texts[i].push_back({wrap_text(p.name, style::heading, cell, 2), style::heading, style::ink});
        for (const auto& c : p.captions)
            texts[i].push_back({wrap_text(c, style::caption, cell, 2), style::caption, style::quiet_ink});
        int h = shown_height + below_name + cell_gap;
        for (const auto& t : texts[i]) h += height(t);
        auto& row = row_heights[i / std::size_t(across)];
        row = std::max(row, h);
    }
    int total = 2 * style::margin;
    for (const auto& t : head) total += height(t) + 6;
    for (const auto& t : foot) total += height(t);
    for (const int h : row_heights) total += h;

    Canvas canvas(width, total + cell_gap, style::surround);
    int y = style::margin;
    for (const auto& t : head) y = draw(canvas, t, style::margin, y) + 6;
    y += cell_gap / 2;
    std::vector<light::Box> places;
    for (int row = 0; row < down; ++row) {
        for (int column = 0; column < across; ++column) {
            const std::size_t i = std::size_t(row * across + column);
            if (i >= n) break;
            const int x = style::margin + column * (cell + cell_gap);
            int below = draw(canvas, texts[i].front(), x, y) + below_name;
            places.push_back({x, y + height(texts[i].front()) + below_name, 0, 0});
            below += shown_height + 4;
            for (std::size_t k = 1; k < texts[i].size(); ++k) below = draw(canvas, texts[i][k], x, below);
        }
        y += row_heights[std::size_t(row)];
    }
    for (const auto& t : foot) y = draw(canvas, t, style::margin, y);
    light::Image out = std::move(canvas).take();
    for (std::size_t i = 0; i < n; ++i) paste(out, page.panels[i].image, places[i].x, places[i].y);
    return out;
}

light::Image with_strip(const light::Image& image, const std::string& text) {
    const double size = std::clamp(image.width / 60.0, 12.0, 96.0);
    const TextStyle letters{Face::bold, size};
    const auto lines = wrap_text(text, letters, std::max(40.0, image.width - 2 * size), 6);
    const int step = static_cast<int>(std::lround(1.4 * size)),
              strip = static_cast<int>(lines.size()) * step + static_cast<int>(size);
    Canvas canvas(image.width, strip, style::surround);
    int y = static_cast<int>(size / 2 + text_ascent(letters));
    for (const auto& l : lines) {
        canvas.text(size, y, l, letters, style::ink);
        y += step;
    }
    light::Image out{image.width, image.height + strip, image.rgb};
    const light::Image below = std::move(canvas).take();
    out.rgb.insert(out.rgb.end(), below.rgb.begin(), below.rgb.end());
    return out;
}

}  // namespace foretone::layout
