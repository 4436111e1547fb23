/// One board at several scales: the mean over a block of fine pixels is the coarse pixel.

#include <catch2/catch.hpp>

#include "foretone/grain/grain.hpp"

using namespace foretone;
using grain::Cut;
using grain::Maps;

namespace {

material::Wood busy_wood() {
    material::Wood w;
    w.reflectance.values = spectral::Spectrum::constant(0.5);
    w.surface_k1.value = 0;
    w.surface_k2.value = 0;
    material::Grain g = material::plain_grain();
    g.pores = material::Pores::ring;
    g.late_shade.value = 0.8, g.late_uptake.value = 0.5, g.late_abrupt.value = 0.7;
    g.pore_um.value = 200, g.pore_per_mm2.value = 8, g.pore_zone.value = 0.3, g.pore_mm.value = 5,
    g.pore_shade.value = 1.3;
    g.ray_um.value = 250, g.ray_mm.value = 10, g.ray_per_mm.value = 0.5, g.ray_shade.value = -0.4,
    g.ray_end_shade.value = 0.5;
    w.grain = g;
    return w;
}

// Reflectance of a body of K/S = 0.25·exp(shade), which is 0.5 at shade 0 (Kubelka & Munk 1931).
double reflectance(float shade) {
    const double a = 0.25 * std::exp(static_cast<double>(shade));
    return 1 / (1 + a + std::sqrt(a * (a + 2)));
}

struct Compared {
    double off = 0, spread = 0;  // root mean square of the difference; of the coarse board about its mean
};

template <class Value>
Compared compare(const Maps& fine, const Maps& coarse, int by, Value&& value) {
    double off = 0, sum = 0, squares = 0;
    for (int y = 0; y < coarse.height; ++y)
        for (int x = 0; x < coarse.width; ++x) {
            double mean = 0;
            for (int j = 0; j < by; ++j)
                for (int i = 0; i < by; ++i) mean += value(fine, fine.at(by * x + i, by * y + j)) / (by * by);
            const double c = value(coarse, coarse.at(x, y));
            off += (mean - c) * (mean - c), sum += c, squares += c * c;
        }
    const double n = coarse.width * coarse.height;
    return {std::sqrt(off / n), std::sqrt(std::max(0.0, squares / n - sum / n * sum / n))};
}

}  // namespace

TEST_CASE("the same board sampled coarser is the mean of the finer one") {
    const auto wood = busy_wood();
    for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift})
        for (const int by : {2, 4}) {
            const auto fine = grain::grain(wood, cut, 800, 600, 0.1, 4),
                       coarse = grain::grain(wood, cut, 800 / by, 600 / by, 0.1 * by, 4);
            const auto bright =
                compare(fine, coarse, by, [](const Maps& m, std::size_t i) { return reflectance(m.shade[i]); });
            const auto uptake = compare(fine, coarse, by,
                                        [](const Maps& m, std::size_t i) { return static_cast<double>(m.uptake[i]); });
            const auto rise =
                compare(fine, coarse, by, [](const Maps& m, std::size_t i) { return static_cast<double>(m.rise[i]); });
            INFO("cut " << static_cast<int>(cut) << ", " << by << " to one: reflectance off " << bright.off << " of "
                        << bright.spread << ", uptake " << uptake.off << " of " << uptake.spread << ", rise "
                        << rise.off);
            CHECK(bright.off < 0.12 * bright.spread);
            CHECK(bright.off < 0.008);
            CHECK(uptake.off < 0.12 * uptake.spread);
            CHECK(rise.off < 1e-3);
        }
}

TEST_CASE("no pixel of a coarse board stands out of what its wood can be") {
    // 2 mm a pixel: rings, pores and rays are all smaller, and must melt into a quiet board, not into a pattern.
    const auto wood = busy_wood();
    for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
        const auto fine = grain::grain(wood, cut, 400, 300, 0.2, 6), coarse = grain::grain(wood, cut, 400, 300, 3, 6);
        const auto spread = [](const Maps& m) {
            double sum = 0, squares = 0;
            for (const float s : m.shade) sum += reflectance(s), squares += reflectance(s) * reflectance(s);
            const auto n = static_cast<double>(m.shade.size());
            return std::sqrt(squares / n - sum / n * sum / n);
        };
        CHECK(spread(coarse) < 0.6 * spread(fine));
    }
}
