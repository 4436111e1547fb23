#include "foretone/layout/tilt.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/layout/canvas.hpp"
#include "foretone/light/rows.hpp"
#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int label_width = 150, between = 8;

constexpr int steps = static_cast<int>(std::size(tilt_steps));
constexpr double piece_pixels = 1e6;  // of a strip, drawn at a time

int tall_of(int height) { return std::min(height, std::max(24, static_cast<int>(height * 1.2 / steps))); }

// Rows `first` to `end` of every map.
void copy_rows(const grain::Maps& maps, grain::Maps& out, int first, int end) {
    const auto cut = [&](const std::vector<float>& map) {
        if (map.empty()) return map;
        return std::vector<float>(map.begin() + static_cast<std::ptrdiff_t>(maps.at(0, first)),
                                  map.begin() + static_cast<std::ptrdiff_t>(maps.at(0, end)));
    };
    out = {maps.width,       end - first,    maps.mm_per_px, cut(maps.shade),
           cut(maps.uptake), cut(maps.rise), cut(maps.turn), cut(maps.pore)};
}

std::string label(double degrees) {
    const int whole = static_cast<int>(std::lround(std::abs(degrees)));
    return whole == 0 ? "light above" : std::to_string(whole) + (degrees < 0 ? "° left" : "° right");
}

}  // namespace

light::Box tilt_size(int width, int height) {
    return {0, 0, label_width + width + between, between + steps * (tall_of(height) + between)};
}

light::Image tilt_strip(const grain::Maps& maps, const light::Finished& finished, int threads) {
    const auto size = tilt_size(maps.width, maps.height);
    light::Image page{size.width, size.height, {}};
    page.rgb.reserve(std::size_t{3} * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height));
    tilt_strip(
        maps.width, maps.height, maps.mm_per_px,
        [&](grain::Maps& rows, int first, int end) { copy_rows(maps, rows, first, end); }, finished,
        [&](std::span<const std::uint8_t> rgb) { page.rgb.insert(page.rgb.end(), rgb.begin(), rgb.end()); }, threads);
    return page;
}

void tilt_strip(int width, int height, double mm_per_px,
                const std::function<void(grain::Maps& maps, int first, int end)>& rows, const light::Finished& finished,
                const std::function<void(std::span<const std::uint8_t> rgb)>& take, int threads) {
    const int tall = tall_of(height), top = (height - tall) / 2;
    const auto size = tilt_size(width, height);
    Canvas canvas(label_width, size.height, style::surround);
    for (int k = 0; k < steps; ++k) {
        const std::string words = label(tilt_steps[k]);
        const int baseline = between + k * (tall + between) + tall / 2 + 6;
        canvas.text(label_width - 14 - text_width(words, style::body), baseline, words, style::body, style::ink);
    }
    const light::Image labels = std::move(canvas).take();
    const auto page_row = static_cast<std::size_t>(3 * size.width), label_row = std::size_t{3} * label_width,
               strip_row = static_cast<std::size_t>(3 * width);
    // A page's rows from `at` on: label, strip (the surround's color where there is none) and margin.
    int at = 0;
    std::vector<std::uint8_t> page;
    const auto give = [&](int count, const std::uint8_t* strip) {
        page.clear();
        for (int y = 0; y < count; ++y) {
            const auto* from = labels.rgb.data() + label_row * static_cast<std::size_t>(at++);
            page.insert(page.end(), from, from + label_row);
            if (strip)
                page.insert(page.end(), strip + strip_row * static_cast<std::size_t>(y),
                            strip + strip_row * static_cast<std::size_t>(y + 1));
            while (page.size() % page_row != 0 || page.size() < page_row * static_cast<std::size_t>(y + 1))
                page.insert(page.end(), style::surround.begin(), style::surround.end());
        }
        take(page);
    };
    const int piece = std::max(1, static_cast<int>(piece_pixels / width));
    grain::Maps maps;
    std::vector<std::uint8_t> rgb;
    give(between, nullptr);
    for (const double tilt : tilt_steps) {
        light::BoardPicture lit(width, tall, mm_per_px, finished, {light::View::passing, tilt}, threads);
        for (int from = 0; from < tall; from += piece) {
            const int end = std::min(tall, from + piece), first = std::max(0, from - 1);
            rows(maps, top + first, top + std::min(tall, end + 1));
            rgb.resize(strip_row * static_cast<std::size_t>(end - from));
            lit.draw(maps, first, from, end, rgb);
            give(end - from, rgb.data());
        }
        give(between, nullptr);
    }
}

}  // namespace foretone::layout
