#include "foretone/layout/tilt.hpp"

#include <algorithm>
#include <cmath>

#include "foretone/layout/canvas.hpp"
#include "page_style.hpp"

namespace foretone::layout {
namespace {

constexpr int label_width = 150, between = 8;

// Rows `first` to `end` of every map.
grain::Maps rows_of(const grain::Maps& maps, int first, int end) {
    grain::Maps out{maps.width, end - first, maps.mm_per_px, {}, {}, {}, {}, {}};
    const auto cut = [&](const std::vector<float>& map) {
        if (map.empty()) return map;
        return std::vector<float>(map.begin() + static_cast<std::ptrdiff_t>(maps.at(0, first)),
                                  map.begin() + static_cast<std::ptrdiff_t>(maps.at(0, end)));
    };
    out.shade = cut(maps.shade);
    out.uptake = cut(maps.uptake);
    out.rise = cut(maps.rise);
    out.turn = cut(maps.turn);
    out.pore = cut(maps.pore);
    return out;
}

std::string label(double degrees) {
    const int whole = static_cast<int>(std::lround(std::abs(degrees)));
    return whole == 0 ? "light above" : std::to_string(whole) + (degrees < 0 ? "° left" : "° right");
}

}  // namespace

light::Image tilt_strip(const grain::Maps& maps, const light::Finished& finished, int threads) {
    constexpr int steps = static_cast<int>(std::size(tilt_steps));
    const int tall = std::min(maps.height, std::max(24, static_cast<int>(maps.height * 1.2 / steps)));
    const grain::Maps strip = rows_of(maps, (maps.height - tall) / 2, (maps.height - tall) / 2 + tall);
    Canvas canvas(label_width + maps.width + between, between + steps * (tall + between), style::surround);
    std::vector<light::Image> lit;
    for (int k = 0; k < steps; ++k) {
        const double tilt = tilt_steps[k];
        lit.push_back(light::light_board(strip, finished, {light::View::passing, tilt}, threads).image);
        const std::string words = label(tilt);
        const int baseline = between + k * (tall + between) + tall / 2 + 6;
        canvas.text(label_width - 14 - text_width(words, style::body), baseline, words, style::body, style::ink);
    }
    light::Image page = std::move(canvas).take();
    for (int k = 0; k < steps; ++k)
        for (int y = 0; y < tall; ++y)
            std::copy_n(
                lit[static_cast<std::size_t>(k)].rgb.begin() + std::ptrdiff_t{3} * y * maps.width,
                std::ptrdiff_t{3} * maps.width,
                page.rgb.begin() + 3 * (std::ptrdiff_t{between + k * (tall + between) + y} * page.width + label_width));
    return page;
}

}  // namespace foretone::layout
