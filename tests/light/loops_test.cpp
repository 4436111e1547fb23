/// The loops over pixels in light: the same bytes for every instruction set, and the readable forms they stand for.

#include <catch2/catch.hpp>

#include <bit>
#include <cmath>
#include <vector>

#include "../../src/light/loops.hpp"
#include "appearance/finishes.hpp"
#include "foretone/grain/noise.hpp"
#include "foretone/light/board.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::light;
using namespace foretone::test;

namespace {

constexpr std::size_t pixels_wide = 203;  // no whole number of vectors

std::vector<base::Isa> sets() {
    std::vector<base::Isa> out = {base::Isa::baseline};
    if (base::widest_isa() != base::Isa::baseline) out.push_back(base::Isa::avx2);
    if (base::widest_isa() == base::Isa::avx512) out.push_back(base::Isa::avx512);
    return out;
}

// Seeded numbers in low … high.
std::vector<float> some(double low, double high, std::uint64_t seed) {
    std::vector<float> out;
    for (std::size_t i = 0; i < pixels_wide; ++i)
        out.push_back(
            static_cast<float>(low + (high - low) * grain::unit(grain::hash(seed, static_cast<std::int64_t>(i), 1))));
    return out;
}

struct Three {
    explicit Three(std::uint64_t seed, double low = 0, double high = 110)
        : x(some(low, high, seed)), y(some(low, high, seed + 1)), z(some(low, high, seed + 2)) {}
    Colors colors() { return {x.data(), y.data(), z.data()}; }
    std::vector<float> x, y, z;
};

const appearance::ToneTable& stained() {  // a table that tells pores
    static const auto made = [] {
        auto stain = step_of({{"red-iron-oxide", schedule::Amount::percent_weight, 10},
                              {"oil-varnish-blend", schedule::Amount::rest, 0}},
                             1, material::Method::wipe);
        stain.wet_g_per_m2 = 70;
        const auto board = appearance::boards(whole_library(), "white-oak", {"stain", {stain}}).back();
        const appearance::ToneSpectra spectra(board, wood_of("white-oak"), optics::Geometry::g45_0,
                                              appearance::two_flux_solver());
        return appearance::ToneTable(spectra, color::make_weights(test::light("D65"), observer("2deg")));
    }();
    return made;
}

const Room& room() {
    static const Room made({View::window, 0}, 300, 200, 1.5);
    return made;
}
constexpr float per_pixel = 1.0F / 256;
const Aspect& near_side() {
    static const Aspect made = room().at(-150, 20);
    return made;
}
const Aspect& far_side() {
    static const Aspect made = room().at(150, 20);
    return made;
}
float between(float a, float b, std::size_t i) { return a + static_cast<float>(i) * per_pixel * (b - a); }

const Lobe film_lobe(0.19, 0.05, 0.9), dry_lobe(0.38, 0.05, 0.8);
const FibreLobes lobes{0.12F, film_lobe.exponent, film_lobe.level, 1.1F,
                       0.03F, dry_lobe.exponent,  dry_lobe.level,  0.9F};

GlareTable table_of(const Glare& glare) {
    constexpr auto last = static_cast<float>(Glare::entries);
    return {glare.table(), static_cast<int>(Glare::entries), Glare::reach, (last - 1) / (2 * Glare::reach),
            last - 1.001F};
}

const Glare& glare() {
    static const Glare made(room(), 0.2, 1);
    return made;
}

struct Tones {
    explicit Tones(base::Isa isa) : color(1) {
        const auto lent = stained().lent();
        const auto shade = some(-4, 5, 11), uptake = some(-0.5, 6, 12), pore = some(0, 1, 13);
        std::vector<int> first(pixels_wide);
        std::vector<float> along(pixels_wide), across(pixels_wide);
        const TonePlaces places{first.data(), along.data(), across.data()};
        const int count = static_cast<int>(pixels_wide);
        find_tones(isa, {lent.shade_low, lent.per_shade, lent.per_uptake, lent.half_way, lent.shades, lent.uptakes},
                   shade.data(), uptake.data(), places, count);
        read_tones(isa, lent.body, lent.shades, places, color.colors(), count);
        if (!lent.pore_body) return;
        Three pores(2);
        read_tones(isa, lent.pore_body, lent.shades, places, pores.colors(), count);
        move_colors(isa, color.colors(), pores.colors(), pore.data(), count);
    }
    Three color;
};

std::vector<float> lit_pixels(base::Isa isa) {
    const auto turn = some(-0.3, 0.3, 21), rise = some(-0.3, 0.3, 22);
    std::vector<float> light(pixels_wide), times(pixels_wide);
    light_fibres(isa, near_side(), far_side(), per_pixel, lobes, turn.data(), rise.data(), light.data(), times.data(),
                 static_cast<int>(pixels_wide));
    light.insert(light.end(), times.begin(), times.end());
    return light;
}

std::vector<float> mirrored_pixels(base::Isa isa) {
    const auto before = some(0, 3, 31), after = some(0, 3, 32);
    auto tilt_x = some(-0.3, 0.3, 33), tilt_y = some(-0.8, 0.8, 34), surface = some(0, 1, 35);
    tilt_over_pores(isa, tilt_x.data(), before.data(), after.data(), 0.2F, 0.9F, static_cast<int>(pixels_wide));
    mirror_light(isa, near_side(), far_side(), per_pixel, table_of(glare()), 0.8F, tilt_x.data(), tilt_y.data(),
                 surface.data(), static_cast<int>(pixels_wide));
    surface.insert(surface.end(), tilt_x.begin(), tilt_x.end());
    return surface;
}

// The last steps of a pixel: everything there is after the body.
std::vector<float> ended_pixels(base::Isa isa) {
    Three color(41), shine(44, 0, 5);
    const auto times = some(0.2, 1.4, 47), surface = some(0, 0.2, 48);
    const float white[] = {95, 100, 109};
    const int count = static_cast<int>(pixels_wide);
    put_surface(isa, color.colors(), times.data(), white, surface.data(), count);
    put_reading(isa, color.colors(), times.data(), shine.colors(), count);
    double sums[sum_lanes] = {};
    add_sums(isa, sums, color.y.data(), count);
    roll_bright(isa, color.colors(), count);
    const Screen screen({95.047, 100, 108.883});
    const auto lent = screen.lent();
    std::vector<int> codes[4];
    for (auto& c : codes) c.resize(pixels_wide);
    find_codes(isa, lent.to_linear.data(), lent.edge, static_cast<float>(lent.entries - 1), color.colors(),
               {codes[0].data(), codes[1].data(), codes[2].data(), codes[3].data()}, count);
    std::vector<float> out = color.x;
    for (const auto* more : {&color.y, &color.z}) out.insert(out.end(), more->begin(), more->end());
    for (const auto& c : codes) out.insert(out.end(), c.begin(), c.end());
    for (const double s : sums) out.push_back(static_cast<float>(s - std::floor(s)));
    return out;
}

}  // namespace

TEST_CASE("the loops in light give the same bytes for every instruction set") {
    const Tones reference(base::Isa::baseline);
    for (const auto isa : sets()) {
        CAPTURE(int(isa));
        const Tones tones(isa);
        CHECK((tones.color.x == reference.color.x && tones.color.y == reference.color.y &&
               tones.color.z == reference.color.z));
        CHECK(lit_pixels(isa) == lit_pixels(base::Isa::baseline));
        CHECK(mirrored_pixels(isa) == mirrored_pixels(base::Isa::baseline));
        CHECK(ended_pixels(isa) == ended_pixels(base::Isa::baseline));
    }
}

TEST_CASE("tones read by the loop are those of the table") {
    REQUIRE(stained().lent().pore_body);
    const Tones tones(base::widest_isa());
    const auto shade = some(-4, 5, 11), uptake = some(-0.5, 6, 12), pore = some(0, 1, 13);
    for (std::size_t i = 0; i < pixels_wide; ++i) {
        const auto due = stained().body(shade[i], uptake[i], pore[i]);
        CHECK_THAT(tones.color.x[i], Near(due[0], 1e-4));  // single precision of Y = 100
        CHECK_THAT(tones.color.y[i], Near(due[1], 1e-4));
        CHECK_THAT(tones.color.z[i], Near(due[2], 1e-4));
    }
}

TEST_CASE("fibres, pores and the film's mirror in the loops are the lobe, the slope and the glare") {
    const auto turn = some(-0.3, 0.3, 21), rise = some(-0.3, 0.3, 22);
    const auto all = lit_pixels(base::widest_isa());
    for (std::size_t i = 0; i < pixels_wide; ++i) {
        const float flat = 1 - 0.5F * rise[i] * rise[i], along = flat * (1 - 0.5F * turn[i] * turn[i]),
                    across = flat * turn[i];
        const auto onto = [&](const float(&a)[3], const float(&b)[3]) {
            return between(a[0], b[0], i) * along + between(a[1], b[1], i) * across + between(a[2], b[2], i) * rise[i];
        };
        const float in = onto(near_side().in, far_side().in), out = onto(near_side().out, far_side().out);
        const float light = between(near_side().light, far_side().light, i);
        const float fibres = 1 + lobes.film_share * (film_lobe.at(in, out) / lobes.film_mean - 1) +
                             lobes.dry_share * (dry_lobe.at(in, out) / lobes.dry_mean - 1);
        CHECK_THAT(all[i], Near(light, 1e-6));
        CHECK_THAT(all[pixels_wide + i], Near(light * fibres, 2e-6));
    }
    const auto before = some(0, 3, 31), after = some(0, 3, 32), tilt = some(-0.3, 0.3, 33),
               tilt_y = some(-0.8, 0.8, 34), surface = some(0, 1, 35);
    const auto shone = mirrored_pixels(base::widest_isa());
    for (std::size_t i = 0; i < pixels_wide; ++i) {
        const float slope = 0.2F * (std::max(0.0F, after[i] - 0.9F) - std::max(0.0F, before[i] - 0.9F));
        const float tilt_x = tilt[i] + slope / (1 + 3 * std::abs(slope));
        CHECK_THAT(shone[pixels_wide + i], Near(tilt_x, 1e-6));
        const float share = glare().at(tilt_x - between(near_side().slope_x, far_side().slope_x, i),
                                       tilt_y[i] - between(near_side().slope_y, far_side().slope_y, i));
        const float due = surface[i] + 0.8F * (between(near_side().shine, far_side().shine, i) * share +
                                               between(near_side().sky, far_side().sky, i));
        CHECK_THAT(shone[i], Near(due, 1e-5));
    }
}

TEST_CASE("what is bright rolls towards white, and codes are the screen's") {
    Three color(51, 0, 130);
    const auto y = color.y;
    roll_bright(base::widest_isa(), color.colors(), static_cast<int>(pixels_wide));
    for (std::size_t i = 0; i < pixels_wide; ++i) CHECK_THAT(color.y[i], Near(rolled(y[i]), 1e-4));

    Three near_grey(61, 20, 40);
    const Screen screen({95.047, 100, 108.883});
    const auto lent = screen.lent();
    std::vector<int> r(pixels_wide), g(pixels_wide), b(pixels_wide), outside(pixels_wide);
    find_codes(base::widest_isa(), lent.to_linear.data(), lent.edge, static_cast<float>(lent.entries - 1),
               near_grey.colors(), {r.data(), g.data(), b.data(), outside.data()}, static_cast<int>(pixels_wide));
    Tally tally;
    int inside = 0;
    for (std::size_t i = 0; i < pixels_wide; ++i) {
        const auto linear = screen.linear(near_grey.x[i], near_grey.y[i], near_grey.z[i]);
        const auto [low, high] = std::minmax({linear[0], linear[1], linear[2]});
        CHECK((outside[i] == 0) == (low >= lent.edge && high <= 1 - lent.edge));
        if (outside[i]) continue;
        ++inside;
        const auto code = screen.code(near_grey.x[i], near_grey.y[i], near_grey.z[i], tally);
        CHECK((lent.codes[r[i]] == code[0] && lent.codes[g[i]] == code[1] && lent.codes[b[i]] == code[2]));
    }
    CHECK(inside > 20);
}
