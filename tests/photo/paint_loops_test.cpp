// The loops over a photograph's pixels: the same bytes for every instruction set, and the formulas they stand for.

#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <vector>

#include "../../src/photo/paint_loops.hpp"
#include "../../src/photo/photo_curve.hpp"
#include "support/tolerance.hpp"

namespace foretone::test::paint_loops {
namespace {

using namespace foretone::photo;

constexpr int wide = 101;  // no multiple of four
constexpr int columns = 30;
constexpr std::size_t rings = 5, details = 6;

// Tables that change smoothly, and a row of pixels of all brightnesses.
struct Set {
    std::vector<float> curve, tones, second_tones, second_bare, figure, corners, lamps;
    std::vector<std::uint16_t> rgb;
    std::vector<std::uint32_t> column;
    std::vector<float> share, table;  // table: ln of uptake by ring and detail
    std::vector<std::uint8_t> codes;
    PaintTables tables;

    PaintRow row(bool uneven) const {
        return {rgb.data(), column.data(), share.data(), figure.data(), uneven ? lamps.data() : nullptr};
    }
};

Set made(bool finish, bool two) {
    Set s;
    std::mt19937 random(7);
    const auto even = [&] { return float(double(random()) / 4294967296.0); };
    for (std::size_t i = 0; i < curve_entries; ++i) {
        const float q = float(i) / float(curve_entries - 1), y = curve_top * q * q + 1e-4F;
        s.curve.insert(s.curve.end(), {y * (0.98F + 0.05F * q), y * (0.6F + 0.3F * q), 0.7F + 0.4F * q, 1.2F - 0.3F * q,
                                       2 - 3 * q, i > 900 ? 1.0F : 0.0F, 0, 0});
        s.second_bare.insert(s.second_bare.end(), {1.3F - 0.1F * q, 1.05F, 0.5F + 0.1F * q, 1});
        for (std::size_t j = 0; j < uptake_entries; ++j) {
            const float u = float(j) / float(uptake_entries - 1);
            s.tones.insert(s.tones.end(), {y * (0.8F - 0.5F * u), y * (0.7F - 0.5F * u), y * (0.3F - 0.2F * u), 0});
            s.second_tones.insert(s.second_tones.end(),
                                  {y * (1.1F - 0.6F * u), y * (0.8F - 0.5F * u), y * (0.15F - 0.1F * u), 0});
        }
    }
    for (std::size_t i = 0; i < rings * details; ++i) s.table.push_back(-1.5F + 3 * even());
    for (std::size_t i = 0; i + 1 < rings; ++i)
        for (std::size_t j = 0; j < details; ++j) {
            const std::size_t k = i * details + j, right = j + 1 < details ? k + 1 : k;
            s.corners.insert(s.corners.end(),
                             {s.table[k], s.table[right], s.table[k + details], s.table[right + details]});
        }
    for (int i = 0; i < columns; ++i) {
        s.figure.insert(s.figure.end(), {even() - 0.5F, 0.4F * (even() - 0.5F), 0, 0});
        const float b = 0.6F + 0.4F * even();
        s.lamps.insert(s.lamps.end(), {b, b, b * 1.01F, 0.9F * even()});
    }
    for (int i = 0; i < wide; ++i) {
        const float y = 60000 * float(i) / wide + 3000;
        for (const float c : {1.05F, 0.95F, 0.7F})
            s.rgb.push_back(static_cast<std::uint16_t>(y * c * (0.95F + 0.1F * even())));
        s.column.push_back(static_cast<std::uint32_t>(i * (columns - 1) / wide));
        s.share.push_back(even());
    }
    for (int i = 0; i < 65536; ++i) s.codes.push_back(static_cast<std::uint8_t>(i / 257));
    auto& t = s.tables;
    t.to_xyz = {0.41F, 0.36F, 0.18F, 0.21F, 0.72F, 0.07F, 0.02F, 0.12F, 0.95F};
    for (float& v : t.to_xyz) v /= 65535;
    t.to_cones = {0.4F, 0.65F, -0.05F, -0.25F, 1.2F, 0.05F, 0, 0.05F, 0.95F};
    t.from_cones = {1.86F, -1.0F, 0.15F, 0.39F, 0.62F, -0.01F, -0.02F, -0.03F, 1.05F};
    t.to_linear = {0.0324F, -0.0154F, -0.005F, -0.0097F, 0.0188F, 0.0004F, 0.0006F, -0.002F, 0.0106F};
    t.codes = s.codes.data(), t.code_entries = s.codes.size(), t.code_edge = 4e-6F;
    t.curve = s.curve.data();
    if (finish) t.tones = s.tones.data();
    if (two) t.second_tones = s.second_tones.data(), t.second_bare = s.second_bare.data();
    t.usual = {1.25F, 1.05F, 0.55F};
    t.figure = s.corners.data(), t.figure_columns = int(details);
    t.ring_low = -0.7F, t.per_ring = 3, t.ring_last = float(rings) - 1.01F;
    t.detail_low = -1, t.per_detail = 2, t.detail_last = float(details) - 1.01F;
    t.ring_scale = 1.1F, t.detail_scale = 0.9F, t.middle_shade = 0.5F, t.ln_mean = 0.05F;
    return s;
}

using Three = std::array<double, 3>;

Three times(const std::array<float, 9>& m, const Three& v) {
    Three out{};
    for (std::size_t r = 0; r < 3; ++r)
        for (std::size_t c = 0; c < 3; ++c) out[r] += double(m[3 * r + c]) * v[c];
    return out;
}

// Straight between entries of four (or `stride`) floats.
Three between(const std::vector<float>& v, double place, std::size_t stride = 4, std::size_t from = 0) {
    const auto i = static_cast<std::size_t>(place);
    Three out{};
    for (std::size_t c = 0; c < 3; ++c) {
        const double a = double(v[stride * i + from + c]), b = double(v[stride * (i + 1) + from + c]);
        out[c] = a + (place - double(i)) * (b - a);
    }
    return out;
}

// photo_finish.cpp's and photo_light.cpp's formulas, in double precision.
Three readable(const Set& s, bool uneven, bool two, int x) {
    const auto& t = s.tables;
    const auto* v = &s.rgb[3 * std::size_t(x)];
    const Three seen = times(t.to_xyz, {double(v[0]), double(v[1]), double(v[2])});
    const double column = double(s.column[std::size_t(x)]) + double(s.share[std::size_t(x)]);
    Three own = seen, bright{1, 1, 1}, usual{1, 1, 1};
    double second = 0;
    const auto place_of = [](double y) { return double(curve_place(float(y))); };
    if (uneven) {
        bright = between(s.lamps, column);
        second = between(s.lamps, column, 4, 1)[2];
        const auto without = [&](const Three& b) {
            Three cones = times(t.to_cones, seen);
            for (std::size_t c = 0; c < 3; ++c) cones[c] /= bright[c] * (1 + second * (b[c] - 1));
            return times(t.from_cones, cones);
        };
        for (std::size_t c = 0; c < 3; ++c) usual[c] = double(t.usual[c]);
        own = without(usual);
        if (two) own = without(between(s.second_bare, place_of(own[1])));
    }
    if (!t.tones) return seen;
    const double place = place_of(own[1]);
    const Three p = between(s.curve, place, 8, 0), g = between(s.curve, place, 8, 2);
    const double px = p[0], pz = p[1], gx = g[0], gz = g[1], shade = between(s.curve, place, 8, 4)[0] - 0.5;
    const Three spot = between(s.figure, column);
    const double a = std::clamp((1.1 * spot[0] + 0.7) * 3, 0.0, double(rings) - 1.01),
                 b = std::clamp((0.9 * (shade - spot[0]) + 1) * 2, 0.0, double(details) - 1.01);
    const auto i = std::size_t(a), j = std::size_t(b);
    const auto at = [&](std::size_t r, std::size_t d) { return double(s.table[r * details + d]); };
    const double f = a - double(i), h = b - double(j);
    const double low = at(i, j) + h * (at(i, j + 1) - at(i, j)),
                 high = at(i + 1, j) + h * (at(i + 1, j + 1) - at(i + 1, j));
    const double u = low + f * (high - low) + spot[1] - 0.05;
    const double across =
        std::clamp((u - double(ln_uptake_low)) / double(ln_uptake_step), 0.0, double(uptake_entries) - 1.01);
    const auto tone = [&](const std::vector<float>& tones) {
        const auto k = std::size_t(place), l = std::size_t(across);
        Three out{};
        for (std::size_t c = 0; c < 3; ++c) {
            const auto e = [&](std::size_t m, std::size_t n) {
                return double(tones[4 * (m * uptake_entries + n) + c]);
            };
            const double w = across - double(l), below = e(k, l) + w * (e(k, l + 1) - e(k, l)),
                         above = e(k + 1, l) + w * (e(k + 1, l + 1) - e(k + 1, l));
            out[c] = below + (place - double(k)) * (above - below);
        }
        return out;
    };
    Three q = tone(s.tones);
    if (two) {
        const Three q2 = tone(s.second_tones);
        for (std::size_t c = 0; c < 3; ++c) q[c] += second * (q2[c] - q[c]);
    }
    q[0] *= std::pow(std::clamp(own[0] / px, 1 / double(x_limit), double(x_limit)), gx);
    q[2] *= std::pow(std::clamp(own[2] / pz, 1 / double(z_limit), double(z_limit)), gz);
    if (!uneven) return q;
    Three cones = times(t.to_cones, q);
    for (std::size_t c = 0; c < 3; ++c) cones[c] *= bright[c] * (two ? 1 : 1 + second * (usual[c] - 1));
    return times(t.from_cones, cones);
}

}  // namespace

// Single precision, and the power within 1e-4 of itself (photo_curve.hpp).
TEST_CASE("loops over a photograph's pixels do what the formulas say") {
    for (const int kind : {0, 1, 2, 3, 4}) {
        const bool finish = kind > 0, uneven = kind >= 2, two = kind == 3;
        const auto s = made(finish, two);
        Painted out;
        paint_wood(base::Isa::baseline, s.tables, s.row(uneven), 0, wide, out);
        for (int x = 0; x < wide; ++x) {
            const auto due = readable(s, uneven, two, x);
            const auto at = std::size_t(x);
            CAPTURE(kind, x);
            CHECK_THAT(double(out.x[at]), Near(due[0], 2e-4 * due[0] + 1e-6));
            CHECK_THAT(double(out.y[at]), Near(due[1], 2e-4 * due[1] + 1e-6));
            CHECK_THAT(double(out.z[at]), Near(due[2], 2e-4 * due[2] + 1e-6));
        }
    }
}

TEST_CASE("they give the same bytes for every instruction set and wherever a row is cut") {
    std::vector<base::Isa> sets = {base::Isa::baseline};
    if (base::widest_isa() != base::Isa::baseline) sets.push_back(base::Isa::avx2);
    if (base::widest_isa() == base::Isa::avx512) sets.push_back(base::Isa::avx512);
    for (const bool two : {false, true}) {
        const auto s = made(true, two);
        std::vector<std::uint8_t> first;
        for (const auto isa : sets) {
            for (const int cut : {0, 1, 38}) {
                std::vector<std::uint8_t> codes(3 * wide), judge(wide);
                int counted = 0;
                for (const auto& [from, count] : {std::pair{0, cut}, {cut, wide - cut}}) {
                    if (count == 0) continue;
                    Painted out;
                    paint_wood(isa, s.tables, s.row(two), from, count, out);
                    encode_painted(isa, s.tables, out, count, &codes[3 * std::size_t(from)], &judge[std::size_t(from)]);
                    counted += out.counted;
                }
                CHECK(counted > wide / 2);
                codes.insert(codes.end(), judge.begin(), judge.end());
                if (first.empty()) first = codes;
                CHECK(codes == first);
            }
        }
        Painted one, other;
        paint_wood(sets.front(), s.tables, s.row(two), 0, wide, one);
        paint_wood(sets.back(), s.tables, s.row(two), 0, wide, other);
        CHECK(std::equal(one.x.begin(), one.x.begin() + wide, other.x.begin()));
        CHECK(std::equal(one.z.begin(), one.z.begin() + wide, other.z.begin()));
        CHECK(one.sum == other.sum);
    }
}

}  // namespace foretone::test::paint_loops
