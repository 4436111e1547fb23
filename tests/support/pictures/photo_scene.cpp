#include "support/pictures/photo_scene.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "appearance/finishes.hpp"
#include "foretone/color/adaptation.hpp"
#include "foretone/color/srgb.hpp"
#include "support/standards.hpp"

namespace foretone::test {
namespace {

color::Weights weights(const std::string& id) { return color::make_weights(light(id), observer("2deg")); }

bool within(const light::Box& b, int x, int y) {
    return x >= b.x && y >= b.y && x < b.x + b.width && y < b.y + b.height;
}

}  // namespace

appearance::ToneTable tones(const std::string& wood, const schedule::Finish& finish, const std::string& light) {
    const auto boards = appearance::boards(whole_library(), wood, finish);
    const appearance::ToneSpectra spectra(boards.back(), wood_of(wood), optics::Geometry::g45_0,
                                          appearance::two_flux_solver());
    return {spectra, weights(light)};
}

Staged staged(const Staging& as) {
    Staged out;
    out.as = as;
    out.board = {as.width / 8, as.height / 8, as.width * 3 / 4, as.height * 3 / 4};
    out.card = {as.width / 40, as.height / 30, as.width / 5, as.height / 5};
    out.clamp = {as.width * 13 / 16, as.height / 2, as.width / 8, as.height / 10};
    out.maps = grain::grain(wood_of(as.wood), as.cut, out.board.width, out.board.height, as.mm_per_px, as.seed);
    const auto bare = tones(as.wood, {"bare", {}}, as.light);
    const color::Xyz white = bare.white();
    const auto peak = [&] {  // linear sRGB of the lamp's white: a camera set to daylight
        double most = 0;
        for (const double v : color::xyz_to_srgb(white)) most = std::max(most, color::srgb_decode(v));
        return most;
    }();
    const double gain = as.exposure / (as.card * peak);
    out.codes = {as.width, as.height, 3, 8, std::vector<std::uint16_t>(std::size_t(3 * as.width * as.height))};
    std::mt19937 random(11);
    const auto deviate = [&] {  // sum of four evens: near enough to normal, the same on any machine
        double sum = 0;
        for (int i = 0; i < 4; ++i) sum += double(random()) / 4294967296.0 - 0.5;
        return sum * std::sqrt(3.0);
    };
    const int gx = as.width / 2, gy = as.height * 3 / 5, radius = std::max(2, as.width / 60);
    for (int y = 0; y < as.height; ++y) {
        for (int x = 0; x < as.width; ++x) {
            color::Xyz c{white.x * as.bench, white.y * as.bench, white.z * as.bench};
            if (within(out.board, x, y)) {
                const std::size_t i = out.maps.at(x - out.board.x, y - out.board.y);
                c = bare.reading(double(out.maps.shade[i]), 1);
                const double glint =
                    0.5 * std::exp(-0.5 * (std::pow(x - gx, 2) + std::pow(y - gy, 2)) / (radius * radius));
                c = {c.x + glint * white.x, c.y + glint * white.y, c.z + glint * white.z};
            }
            const double grey = within(out.card, x, y) ? as.card : within(out.clamp, x, y) ? 0.02 : 0;
            if (grey > 0) c = {white.x * grey, white.y * grey, white.z * grey};
            const double lit = gain * (1 - as.gradient * x / as.width);
            const auto v = color::xyz_to_srgb({lit * c.x, lit * c.y, lit * c.z});
            for (int k = 0; k < 3; ++k) {
                const double code = 255 * v[std::size_t(k)] + (as.noise > 0 ? as.noise * deviate() : 0);
                out.codes.at(x, y, k) = std::uint16_t(std::lround(std::clamp(code, 0.0, 255.0)));
            }
        }
    }
    std::vector<std::uint8_t> bytes;
    for (const auto v : out.codes.values) bytes.push_back(std::uint8_t(v));
    out.pixels = photo::pixels_of_srgb(as.width, as.height, 3, bytes.data(), bytes.size());
    // Marked as a user would: well inside the card, and not where the board may lie over it.
    out.card = {out.card.x + 3, out.card.y + 3, out.card.width - 6, out.card.height - 6};
    return out;
}

color::Xyz direct(const Staged& staged, const appearance::ToneTable& table, int x, int y) {
    const std::size_t i = staged.maps.at(x - staged.board.x, y - staged.board.y);
    return color::adapt(table.reading(double(staged.maps.shade[i]), double(staged.maps.uptake[i])), table.white(),
                        color::srgb_white);
}

}  // namespace foretone::test
