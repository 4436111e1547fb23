/// The loops over a row's pixels: the same bytes for every instruction set, and the formulas they stand for.

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

#include "../../src/grain/grain_nodes.hpp"
#include "../../src/grain/loops.hpp"
#include "foretone/grain/noise.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::grain;
using foretone::test::Near;

namespace {

std::vector<base::Isa> sets() {
    std::vector<base::Isa> out = {base::Isa::baseline};
    if (base::widest_isa() != base::Isa::baseline) out.push_back(base::Isa::avx2);
    if (base::widest_isa() == base::Isa::avx512) out.push_back(base::Isa::avx512);
    return out;
}

// Seeded numbers in low … high.
std::vector<float> some(std::size_t count, double low, double high, std::uint64_t seed) {
    std::vector<float> out;
    for (std::size_t i = 0; i < count; ++i)
        out.push_back(static_cast<float>(low + (high - low) * unit(hash(seed, static_cast<std::int64_t>(i), 1))));
    return out;
}

constexpr int wide = 389;

std::vector<std::vector<float>> drawn_pixels(base::Isa isa) {
    std::vector<std::vector<float>> in;
    std::uint64_t seed = 1;
    const auto next = [&](double low, double high, std::size_t count = wide + 1) {
        in.push_back(some(count, low, high, seed++));
        return in.back().data();
    };
    in.reserve(40);
    PixelTables t;
    std::vector<std::vector<std::uint64_t>> pairs;
    pairs.reserve(8);
    const auto next_pairs = [&](double low, double high, std::size_t count) {
        pairs.push_back(in_pairs(some(count, low, high, seed++)));
        return pairs.back().data();
    };
    t.ring_bright = next_pairs(-2, 2, 500), t.ring_uptake = next_pairs(-2, 2, 500);
    t.ring_streaks = next_pairs(-2, 2, 500), t.ring_twist = next(-2, 2, 500);
    t.ring_low = 60, t.per_ring = 50, t.ring_last = 499 - 1, t.bright_mean = 0.4F, t.uptake_mean = 1;
    t.bright = next_pairs(0.1, 0.9, 652), t.shade = next_pairs(-2, 3, 652);
    t.shade_low = -2.5F, t.shade_high = 4, t.per_shade = 100, t.brightest = 0.9F, t.per_bright = 800, t.tone_last = 650;
    t.rays = next(0, 1, 90 * wide), t.ray_rows = 90, t.ray_columns = wide, t.ray_low = -4, t.per_ray = 11;
    t.twist = 0.1F, t.middle_shade = 0.3F, t.open_shade = 1.2F, t.end_uptake = 2;
    t.ray_shade = -0.4F, t.ray_end_shade = 0.3F, t.pore_shade = 1.2F, t.pore_uptake = 2;
    PixelRow p;
    p.radius = next(61, 69), p.radius_below = next(61, 69), p.tangent = next(-4, 4), p.tangent_below = next(-4, 4);
    p.drift = next(-1, 1), p.v = next(40, 60), p.rise = next(-0.1, 0.1), p.turn = next(-0.1, 0.1);
    p.fibres = next(-0.2, 0.2), p.contrast = next(-0.3, 0.3), p.mix0 = next(-0.1, 0.1), p.mix1 = next(-0.1, 0.1);
    p.drink = next(-0.5, 0.5), p.curl = next(-0.1, 0.1);
    p.large = next(0, 1.2), p.small = next(0, 1.2), p.speck = next(0, 1.2);
    p.u_middle = 30;
    std::vector<std::vector<float>> out(5, std::vector<float>(wide));
    draw_pixels(isa, t, p, {out[0].data(), out[1].data(), out[2].data(), out[3].data(), out[4].data()}, wide);
    return out;
}

}  // namespace

TEST_CASE("the loops over pixels give the same bytes for every instruction set") {
    const auto reference = drawn_pixels(base::Isa::baseline);
    const auto columns = some(60, -1, 1, 9);
    const std::vector<double> lattice(columns.begin(), columns.end());
    const auto drawn = [&](base::Isa isa) {
        std::vector<float> row(wide + groove_pad, 0.25F);
        add_cubics(isa, row.data(), wide, 3.3, 0.13, lattice.data(), 1);
        add_distance(isa, row.data(), columns.data(), columns.data() + 7, 3, 50);
        add_groove(isa, row.data() + 20, 300, -140.4F, 150, 148.6F, 1.7F, 0.6F, 0.004F);
        add_between(isa, row.data(), reference[0].data(), reference[1].data(), 0.3F, wide);
        std::vector<float> other = row;
        finish_pixels(isa, row.data(), other.data(), wide, 0.1F, 1.3F, -2.5F, 4);
        row.insert(row.end(), other.begin(), other.end());
        return row;
    };
    for (const auto isa : sets()) {
        CAPTURE(int(isa));
        CHECK(drawn_pixels(isa) == reference);
        CHECK(drawn(isa) == drawn(base::Isa::baseline));
    }
}

// The B-spline of the lattice values, point by point (computed from its four weights).
TEST_CASE("cubics are the spline of their lattice, at any pace") {
    const auto columns = some(60, -1, 1, 4);
    const std::vector<double> lattice(columns.begin(), columns.end());
    double worst = 0;
    for (const double pace : {0.01, 0.13, 0.49}) {
        std::vector<float> row(100, 0.0F);
        add_cubics(base::widest_isa(), row.data(), 100, 4.2, pace, lattice.data(), 2);
        for (int i = 0; i < 100; ++i) {
            const double u = 4.2 + pace * i, k = std::floor(u);
            double w[4], sum = 0;
            spline_weights(u - k, w);
            for (int m = 0; m < 4; ++m)
                sum += w[m] * lattice[static_cast<std::size_t>(k) - 3 + static_cast<std::size_t>(m)];
            worst = std::max(worst, std::abs(sum - static_cast<double>(row[static_cast<std::size_t>(i)])));
        }
    }
    CHECK(worst < 1e-5);  // single precision, hundreds of steps
}

// A groove of half width w·(1 − t⁴) covers 2·0.8·w of its length (computed: the mean of 1 − t⁴ is 4/5). Widths are
// taken in the middle of each pixel: with 40 of them that adds (1/20)²/24 · 4/0.8 of it, 0.023 pixels (the middle
// rule's error).
TEST_CASE("a groove's shares add up to its area, wherever it lies") {
    for (const float row : {0.1F, 0.5F, 2.8F})
        for (const float from : {-30.0F, -30.7F, -41.2F}) {
            double sum = 0;
            for (int r = -3; r <= 6; ++r) {
                std::vector<float> cover(64 + groove_pad, 0.0F);
                add_groove(base::widest_isa(), cover.data(), 64, from, 20, 20, 0.7F, row - static_cast<float>(r),
                           0.03F);
                for (const float c : cover) sum += static_cast<double>(c);
            }
            CAPTURE(row, from);
            CHECK_THAT(sum, Near(2 * 0.8 * 0.7 * 40 + 0.023, 0.005));
        }
}

TEST_CASE("rows drawn at every few and straight between are the noise itself, within a hundredth of its spread") {
    const Noise noise(3, 40, 9.7);
    NodeRows nodes(9.7, 0.15);
    double square = 0, off = 0;
    for (int y = -20; y < 300; ++y) {
        std::vector<float> exact(50, 0.0F), row(50, 0.0F);
        const auto draw = [&](int at, float* out) {
            noise.add_row(out, 50, 0.5, 0.15, 1, 0, [&](double) { return 0.15 * at; });
        };
        draw(y, exact.data());
        nodes.add(base::widest_isa(), row.data(), 50, y, draw);
        for (std::size_t i = 0; i < 50; ++i) {
            square += static_cast<double>(exact[i]) * static_cast<double>(exact[i]);
            off += std::pow(static_cast<double>(exact[i] - row[i]), 2);
        }
    }
    CHECK(std::sqrt(off / square) < 0.01);
}
