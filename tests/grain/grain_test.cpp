#include <catch2/catch.hpp>
#include <cstring>
#include <tuple>

#include "foretone/material/optics_of.hpp"
#include "foretone/grain/grain.hpp"
#include "foretone/grain/rows.hpp"

using namespace foretone;
using grain::Cut;
using grain::Maps;

namespace {

material::Wood plain_wood(double reflectance = 0.5) {
    material::Wood w;
    w.reflectance.values = spectral::Spectrum::constant(reflectance);
    w.surface_k1.value = 0.04;
    w.surface_k2.value = 0.25;
    return w;
}

bool same(const Maps& a, const Maps& b) {
    const auto equal = [](const std::vector<float>& p, const std::vector<float>& q) {
        return p.size() == q.size() && std::memcmp(p.data(), q.data(), p.size() * sizeof(float)) == 0;
    };
    return equal(a.shade, b.shade) && equal(a.uptake, b.uptake) && equal(a.rise, b.rise) && equal(a.turn, b.turn);
}

double mean(const std::vector<float>& v) {
    double sum = 0;
    for (const float x : v) sum += static_cast<double>(x);
    return sum / static_cast<double>(v.size());
}

}  // namespace

TEST_CASE("the same seed gives the same board, byte for byte, whatever the number of threads") {
    const auto wood = plain_wood();
    for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
        const auto one = grain::grain(wood, cut, 300, 200, 0.2, 7, 1);
        CHECK(same(one, grain::grain(wood, cut, 300, 200, 0.2, 7, 2)));
        CHECK(same(one, grain::grain(wood, cut, 300, 200, 0.2, 7, 5)));
        CHECK_FALSE(same(one, grain::grain(wood, cut, 300, 200, 0.2, 8, 1)));
    }
}

TEST_CASE("mean uptake is 1 and the mean bare reflectance is the library's") {
    for (const double level : {0.1, 0.5, 0.8}) {
        const auto wood = plain_wood(level);
        const double body = material::body_reflectance(wood)[40], ks = (1 - body) * (1 - body) / (2 * body);
        for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
            const auto maps = grain::grain(wood, cut, 400, 300, 0.25, 3);
            CHECK(std::abs(mean(maps.uptake) - 1) < 1e-5);
            double sum = 0;
            for (const float s : maps.shade) {
                const double a = ks * std::exp(static_cast<double>(s));
                sum += material::dry_surface(0.04, 0.25, 1 / (1 + a + std::sqrt(a * (a + 2))));
            }
            CHECK(std::abs(sum / static_cast<double>(maps.shade.size()) - level) < 5e-4);
        }
    }
}

TEST_CASE("a board that cannot be is refused by name and value") {
    CHECK_THROWS_WITH(grain::grain(plain_wood(), Cut::flat, 0, 10, 0.1, 1),
                      Catch::Contains("1 to 20000 pixels, got 0 x 10"));
    CHECK_THROWS_WITH(grain::grain(plain_wood(), Cut::flat, 10, 20001, 0.1, 1), Catch::Contains("20001"));
    CHECK_THROWS_WITH(grain::grain(plain_wood(), Cut::flat, 10, 10, 0.0, 1),
                      Catch::Contains("mm_per_px must be 0.005 to 5"));
    CHECK_THROWS_WITH(grain::grain(plain_wood(), Cut::flat, 10, 10, std::nan(""), 1), Catch::Contains("mm_per_px"));
}

TEST_CASE("the smallest and the longest boards are drawn like any other") {
    const auto wood = plain_wood();
    for (const Cut cut : {Cut::flat, Cut::quarter, Cut::rift}) {
        for (const auto& [width, height, mm] : {std::tuple(1, 1, 0.1), std::tuple(2, 3, 5.0), std::tuple(1200, 20, 5.0),
                                                std::tuple(3, 1200, 5.0), std::tuple(64, 64, 0.005)}) {
            const auto maps = grain::grain(wood, cut, width, height, mm, 1);
            bool sound = true;
            for (std::size_t i = 0; i < maps.shade.size(); ++i)
                sound = sound && std::isfinite(maps.shade[i]) && maps.uptake[i] > 0 && std::abs(maps.rise[i]) < 1 &&
                        std::abs(maps.turn[i]) < 2;
            INFO(width << " x " << height << " at " << mm << " mm");
            CHECK(sound);
        }
    }
    CHECK_THROWS_WITH(grain::grain(wood, Cut::flat, 2000, 10, 4, 1), Catch::Contains("at most 6000 mm long, got 8000"));
}

TEST_CASE("rows shared out among threads are each done once, and a failure comes back") {
    for (const int threads : {0, 1, 3}) {
        std::vector<int> done(1000, 0);
        grain::for_rows(1000, threads, [&](int first, int end) {
            for (int y = first; y < end; ++y) ++done[static_cast<std::size_t>(y)];
        });
        CHECK(done == std::vector<int>(1000, 1));
        CHECK_THROWS_AS(grain::for_rows(100, threads, [](int, int) { throw std::runtime_error("no"); }),
                        std::runtime_error);
    }
    grain::for_rows(0, 2, [](int, int) { FAIL("no row, no call"); });
}
