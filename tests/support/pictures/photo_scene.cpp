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

StagedLight light_of(const Staging& as, int x, int y) {
    const double u = (x + 0.5) / as.width, v = (y + 0.5) / as.height;
    return {as.brightness ? as.brightness(u, v) : 1 - as.gradient * x / as.width,
            as.other_share ? as.other_share(u, v) : 0};
}

Staged staged(const Staging& as) {
    Staged out;
    out.as = as;
    out.board = {as.width / 8, as.height / 8, as.width * 3 / 4, as.height * 3 / 4};
    out.card = {as.width / 40, as.height / 30, as.width / 5, as.height / 5};
    out.clamp = {as.width * 13 / 16, as.height / 2, as.width / 8, as.height / 10};
    out.far_card = {as.width * 7 / 10, as.height * 13 / 20, as.width / 8, as.height / 8};
    out.maps = grain::grain(wood_of(as.wood), as.cut, out.board.width, out.board.height, as.mm_per_px, as.seed);
    const auto bare = tones(as.wood, {"bare", {}}, as.light);
    const auto other = tones(as.wood, {"bare", {}}, as.other_light.empty() ? as.light : as.other_light);
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
            // What lies there, under each lamp alone.
            const bool wood = within(out.board, x, y);
            const std::size_t i = wood ? out.maps.at(x - out.board.x, y - out.board.y) : 0;
            const double grey = within(out.card, x, y) || (as.second_card && within(out.far_card, x, y)) ? as.card
                                : within(out.clamp, x, y)                                                ? 0.02
                                                                                                         : 0;
            const double glint =
                as.glint && wood
                    ? 0.5 * std::exp(-0.5 * (std::pow(x - gx, 2) + std::pow(y - gy, 2)) / (radius * radius))
                    : 0;
            const auto under = [&](const appearance::ToneTable& lamp) {
                const color::Xyz& w = lamp.white();
                if (grey > 0 || !wood) {
                    const double r = grey > 0 ? grey : as.bench;
                    return color::Xyz{w.x * r, w.y * r, w.z * r};
                }
                const auto c = lamp.reading(double(out.maps.shade[i]), 1);
                return color::Xyz{c.x + glint * w.x, c.y + glint * w.y, c.z + glint * w.z};
            };
            const StagedLight here = light_of(as, x, y);
            const double lit = gain * here.brightness;
            auto c = under(bare);
            if (here.other > 0) {
                const auto d = under(other);
                c = {c.x + here.other * (d.x - c.x), c.y + here.other * (d.y - c.y), c.z + here.other * (d.z - c.z)};
            }
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
    out.far_card = {out.far_card.x + 3, out.far_card.y + 3, out.far_card.width - 6, out.far_card.height - 6};
    out.card = {out.card.x + 3, out.card.y + 3, out.card.width - 6, out.card.height - 6};
    return out;
}

color::Xyz direct(const Staged& staged, const appearance::ToneTable& table, int x, int y) {
    const std::size_t i = staged.maps.at(x - staged.board.x, y - staged.board.y);
    return color::adapt(table.reading(double(staged.maps.shade[i]), double(staged.maps.uptake[i])), table.white(),
                        color::srgb_white);
}

}  // namespace foretone::test
