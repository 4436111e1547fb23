#include "foretone/search/next_reading.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "foretone/appearance/lattice.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using appearance::Draws;
using color::Lab;

namespace {

class Normal {
public:
    double operator()() { return appearance::normal_quantile((static_cast<double>(random_() >> 11) + 0.5) * 0x1p-53); }

private:
    std::mt19937_64 random_{7};
};

constexpr std::size_t worlds = 4000;

// Worlds in which a finish's lightness is its materials' part m plus its board's part b, about L* 50, where a step ΔL*
// is ΔE00 |ΔL*| (Sharma, Wu & Dalal 2005, equation 15); and a reading that sees m with noise of its own.
struct Worlds {
    Draws finished, reading, useless;
    Worlds(double materials, double boards, double noise) {
        Normal n;
        for (std::size_t i = 0; i < worlds; ++i) {
            const double m = materials * n();
            for (int b = 0; b < 2; ++b) finished.push_back({50 + m + boards * n(), 0, 0});
            reading.push_back({60 + m + noise * n(), 0, 0});
            useless.push_back({40 + 2 * n(), 0, 0});
        }
    }
};

}  // namespace

TEST_CASE("a reading leaves what the textbook's formula leaves of one normal number") {
    // Known to σ_m, read with noise σ_n: what is left is σ_m σ_n/√(σ_m² + σ_n²); the boards' part stays.
    const double materials = 3, boards = 1, noise = 1;
    const Worlds w(materials, boards, noise);
    const auto n = search::next_readings({w.useless, w.reading}, w.finished, 0);
    const double left = std::hypot(materials * noise / std::hypot(materials, noise), boards);
    // A standard deviation of N plain draws has the standard error 1/√(2N) of itself; three of them are allowed.
    const double three = 3 / std::sqrt(2.0 * worlds);
    CHECK_THAT(n.now_de00 / std::hypot(materials, boards), Near(1, three));
    CHECK_THAT(n.floor_de00 / boards, Near(1, three));
    CHECK(n.one.of == std::vector<std::size_t>{1});
    CHECK_THAT(n.one.spread_de00 / left, Near(1, three));
    CHECK_THAT(n.all.spread_de00 / left, Near(1, three));
}

TEST_CASE("an instrument's own noise is its repeat, shared by three axes") {
    // A repeat of ΔE*ab d is d/√3 on each of L*, a*, b*: on the lightness alone it adds d²/3 to the reading's variance.
    const double materials = 3, boards = 1, noise = 0.5, repeat = 3;
    const Worlds w(materials, boards, noise);
    const double all = std::hypot(noise, repeat / std::sqrt(3.0));
    const double left = std::hypot(materials * all / std::hypot(materials, all), boards);
    CHECK_THAT(search::next_readings({w.reading}, w.finished, repeat).one.spread_de00 / left,
               Near(1, 3 / std::sqrt(2.0 * worlds)));
}

TEST_CASE("a noisier instrument leaves more, and never more than there was") {
    const Worlds w(3, 1, 0.1);
    double before = 0;
    for (const double de : {0.0, 0.5, 2.0, 8.0, 100.0}) {
        const auto n = search::next_readings({w.reading}, w.finished, de);
        CHECK(n.one.spread_de00 >= before);
        CHECK(n.one.spread_de00 <= n.now_de00);
        before = n.one.spread_de00;
    }
    CHECK_THAT(before, Near(search::next_readings({}, w.finished, 0).now_de00, 0.01));
}

TEST_CASE("two readings of what one alone cannot tell apart are found as a pair") {
    // The finish is the sum of two unknowns, each reading sees one of them.
    Normal n;
    Draws finished, first, second;
    for (std::size_t i = 0; i < worlds; ++i) {
        const double p = 2 * n(), q = 2 * n();
        for (int b = 0; b < 2; ++b) finished.push_back({50 + p + q, 0, 0});
        first.push_back({50 + p, 0, 0});
        second.push_back({50 + q, 0, 0});
    }
    const auto r = search::next_readings({first, second}, finished, 0.1);
    CHECK(r.two.of == std::vector<std::size_t>{0, 1});
    CHECK(r.two.spread_de00 < 0.1 * r.now_de00);
    CHECK_THAT(r.one.spread_de00 / r.now_de00, Near(std::sqrt(0.5), 0.02));
}

TEST_CASE("nothing to read narrows nothing; draws that do not go together are refused") {
    const Worlds w(3, 1, 1);
    const auto n = search::next_readings({}, w.finished, 0.3);
    CHECK((n.one.of.empty() && n.two.of.empty() && n.all.of.empty()));
    CHECK(n.one.spread_de00 == n.now_de00);
    CHECK_THROWS_AS(search::next_readings({Draws(5)}, w.finished, 0.3), std::invalid_argument);
    CHECK_THROWS_AS(search::next_readings({}, Draws(20), 0.3), std::invalid_argument);
}
