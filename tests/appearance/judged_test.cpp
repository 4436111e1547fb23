// Quantiles of draws on grey, where ΔE00 is a plain distance and the quantiles of normal draws are known.

#include "../../src/appearance/judged.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/appearance/lattice.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

// At L* 50 and no chroma S_L = S_C = S_H = 1 and a' = 1.5 a (CIE 142-2001): steps of 1, 1/1.5 and 1 in L*, a* and b*
// are one ΔE00 each, and at right angles.
constexpr double step_a = 1 / 1.5;

color::Lab grey_moved(double l, double a, double b) { return {50 + l, step_a * a, b}; }

Eigen::MatrixXd even_slopes(double size) {
    Eigen::MatrixXd j = Eigen::MatrixXd::Zero(3, 3);
    j(0, 0) = j(2, 2) = size;
    j(1, 1) = step_a * size;
    return j;
}

std::vector<Coordinate> three(Origin first, Origin second, Origin third) {
    return {{"a", "a", first}, {"b", "b", second}, {"c", "c", third}};
}
const auto materials_only = three(Origin::materials, Origin::materials, Origin::materials);

// Sets of worlds of three coordinates, and the colors that `color` gives them in each set.
struct GreyDrawn {
    template <class Color>
    GreyDrawn(unsigned how_many, Color color) {
        const ShiftedLattice lattice(3, 77);
        for (unsigned s = 0; s < how_many; ++s) {
            sets.emplace_back();
            for (std::size_t p = 0; p < lattice_points; ++p) {
                World z;
                for (std::size_t d = 0; d < 3; ++d) z.push_back(normal_quantile(lattice.at(p, d, s)));
                draws.push_back(color(s, z));
                sets.back().seen.push_back({{z, z}, {}, {}});
            }
        }
    }
    Region judged(const Eigen::MatrixXd& slopes, const std::vector<Coordinate>& coordinates) const {
        return region_of(draws, Worlds(sets, 3), false, slopes, coordinates);
    }

    std::vector<Set> sets;
    Draws draws;
};

// Boards alone where slopes say nothing.
Region counted_alone(const Draws& pairs, const color::Lab& mean) {
    Set set;
    for (std::size_t i = 0; i < pairs.size() / 2; ++i) set.seen.push_back({{World(3), World(3)}, {}, {}});
    return boards_alone(pairs, mean, Worlds({set}, 3), Eigen::MatrixXd::Zero(3, 3),
                        three(Origin::boards, Origin::boards, Origin::boards));
}

// Quantiles of χ² by tables: 90 % of three degrees of freedom 6.2514, of one 2.7055 (common tables).
const double three_90 = std::sqrt(6.2514), one_90 = std::sqrt(2.7055);

}  // namespace

TEST_CASE("of normal colors the 90 % quantile is the known one, however few worlds are drawn") {
    const double size = 0.02;
    const auto color = [&](unsigned, const World& z) { return grey_moved(size * z[0], size * z[1], size * z[2]); };
    for (const unsigned sets : {1u, 2u, 10u}) {
        const GreyDrawn d(sets, color);
        const auto r = d.judged(even_slopes(size), materials_only);
        INFO(sets << " sets");
        CHECK(r.de00_90 == Approx(three_90 * size).epsilon(0.012));  // 4,096 points stand for the normal distribution
        CHECK(r.de00_90_error < 2e-3);
        CHECK(r.rms_de00 == Approx(std::sqrt(3.0) * size).epsilon(0.05));
    }
    // All in one direction: one degree of freedom.
    const GreyDrawn line(4, [&](unsigned, const World& z) { return grey_moved(size * z[0], 0, 0); });
    Eigen::MatrixXd j = even_slopes(size);
    j(1, 1) = j(2, 2) = 0;
    CHECK(line.judged(j, materials_only).de00_90 == Approx(one_90 * size).epsilon(0.012));
}

TEST_CASE("colors that lie further out than their linear part says have as much wider a quantile") {
    const double size = 0.02;
    for (const double more : {0.7, 1.0, 1.4}) {
        const GreyDrawn d(6, [&](unsigned, const World& z) {
            return grey_moved(more * size * z[0], more * size * z[1], more * size * z[2]);
        });
        CHECK(d.judged(even_slopes(size), materials_only).de00_90 == Approx(more * three_90 * size).epsilon(0.012));
    }
    // A tail that grows: |c| = |z|(1 + |z|/10), which is 1 + q/10 times as far at the quantile q.
    const GreyDrawn bent(10, [&](unsigned, const World& z) {
        const double far = std::sqrt(z[0] * z[0] + z[1] * z[1] + z[2] * z[2]), by = size * (1 + far / 10);
        return grey_moved(by * z[0], by * z[1], by * z[2]);
    });
    CHECK(bent.judged(even_slopes(size), materials_only).de00_90 ==
          Approx((1 + three_90 / 10) * three_90 * size).epsilon(0.015));
}

TEST_CASE("the sampling error is what sets differ by, over the root of their number") {
    const double size = 0.02;
    // Sets of 0.9 and 1.1 times the spread: ratios 0.9 and 1.1 of the whole's, standard deviation 0.1·√(n/(n−1)).
    for (const unsigned sets : {2u, 4u, 10u}) {
        const GreyDrawn d(sets, [&](unsigned s, const World& z) {
            const double by = size * (s % 2 == 0 ? 0.9 : 1.1);
            return grey_moved(by * z[0], by * z[1], by * z[2]);
        });
        const auto r = d.judged(even_slopes(size), materials_only);
        const double number = sets;
        CHECK(r.de00_90_error == Approx(0.1 / std::sqrt(number - 1)).epsilon(0.06));
    }
    const GreyDrawn one(1, [&](unsigned, const World& z) { return grey_moved(z[0] * size, 0, 0); });
    CHECK(one.judged(even_slopes(size), materials_only).de00_90_error == 0);  // one set cannot tell
}

TEST_CASE("boards' part is their share of the slopes' squares, and both parts' squares are the whole") {
    const double size = 0.02;
    const GreyDrawn d(
        4, [&](unsigned, const World& z) { return grey_moved(size * z[0], 2 * size * z[1], 3 * size * z[2]); });
    Eigen::MatrixXd j = even_slopes(size);
    j.col(1) *= 2;
    j.col(2) *= 3;
    const auto share = [&](const std::vector<Coordinate>& c) {
        const auto r = d.judged(j, c);
        CHECK(std::hypot(r.materials_de00, r.boards_de00) == Approx(r.rms_de00).epsilon(1e-9));
        return std::pow(r.boards_de00 / r.rms_de00, 2);
    };
    // ΔE00 near grey as a quadratic form over steps of one unit: S_C grows by 0.045 a unit of chroma.
    CHECK(share(three(Origin::boards, Origin::materials, Origin::materials)) == Approx(1.0 / 14).epsilon(0.1));
    CHECK(share(three(Origin::materials, Origin::boards, Origin::materials)) == Approx(4.0 / 14).epsilon(0.1));
    CHECK(share(three(Origin::materials, Origin::boards, Origin::boards)) == Approx(13.0 / 14).epsilon(0.02));
    CHECK(share(materials_only) == 0);
    CHECK(share(three(Origin::boards, Origin::boards, Origin::boards)) == Approx(1).epsilon(1e-9));
}

TEST_CASE("colors that are all the same have no region at all") {
    const GreyDrawn d(3, [](unsigned, const World&) { return grey_moved(0, 0, 0); });
    const auto r = d.judged(even_slopes(0.02), three(Origin::boards, Origin::boards, Origin::materials));
    CHECK(r.de00_90 == 0);
    CHECK(r.de00_90_error == 0);
    CHECK(r.boards_de00 == 0);
    CHECK(r.materials_de00 == 0);
}

TEST_CASE("colors whose slopes are none keep the quantile that was counted") {
    const GreyDrawn d(3, [](unsigned, const World& z) { return grey_moved(0.02 * z[0], 0, 0); });
    const auto counted = region(d.draws);
    const auto r = d.judged(Eigen::MatrixXd::Zero(3, 3), materials_only);
    CHECK(r.de00_90 == counted.de00_90);
    CHECK(r.boards_de00 == 0);
    CHECK(r.materials_de00 == Approx(counted.rms_de00).epsilon(1e-12));
}

TEST_CASE("what two boards of one world differ by is the boards' part, never more than the whole") {
    // Pairs 1 and 1 apart about one mean: ½·mean of squares = ½, over the two of each pair.
    const Draws pairs = {{50.5, 0, 0}, {49.5, 0, 0}, {49.5, 0, 0}, {50.5, 0, 0}};
    Region r = region(pairs);
    set_boards_share(r, pairs);
    CHECK(r.rms_de00 == Approx(0.5).epsilon(2e-3));
    CHECK(r.boards_de00 == Approx(r.rms_de00).epsilon(1e-9));  // √(2/4) is more than there is
    CHECK(r.materials_de00 == Approx(0).margin(1e-9));
    // Boards alike, materials apart.
    const Draws alike = {{51, 0, 0}, {51, 0, 0}, {49, 0, 0}, {49, 0, 0}};
    r = region(alike);
    set_boards_share(r, alike);
    CHECK(r.boards_de00 == 0);
    CHECK(r.materials_de00 == Approx(r.rms_de00).epsilon(1e-12));
    // 3 apart by materials, 1 by boards.
    const Draws both = {{51.5, 0, 0}, {52.5, 0, 0}, {48.5, 0, 0}, {47.5, 0, 0}};
    r = region(both);
    set_boards_share(r, both);
    CHECK(r.boards_de00 == Approx(std::sqrt(2.0 / 4)).epsilon(0.03));  // S_L is not quite 1 off L* 50
    CHECK(std::hypot(r.boards_de00, r.materials_de00) == Approx(r.rms_de00).epsilon(1e-12));
}

TEST_CASE("boards alone lie about the mean to both sides, as far as two of them differ over the root of two") {
    const Draws pairs = {{51, 0, 0}, {50, 0, 0}, {60, 0, 0}, {61, 0, 0}};
    const color::Lab mean{50, 0, 0};
    const auto r = counted_alone(pairs, mean);
    CHECK(r.mean.l == Approx(50).epsilon(1e-12));
    CHECK(r.rms_de00 == Approx(std::sqrt(0.5)).epsilon(2e-3));
    CHECK(r.boards_de00 == r.rms_de00);
    CHECK(r.de00_90 == Approx(std::sqrt(0.5)).epsilon(2e-3));
    CHECK(r.covariance[0][0] == Approx(0.5 * 4 / 3).epsilon(1e-9));  // over one less than the four
    CHECK(r.covariance[1][1] == 0);
    CHECK(counted_alone({{50, 0, 0}, {50, 0, 0}}, mean).de00_90 == 0);
    // A pair apart in a* counts where it is.
    const auto red = counted_alone({{50, 0.1, 0}, {50, 0, 0}}, mean);
    CHECK(red.rms_de00 == Approx(0.15 * std::sqrt(0.5)).epsilon(0.02));
}

TEST_CASE("a sample takes the first boards, or both of each world in turn") {
    Set set;
    for (int i = 0; i < 3; ++i) {
        Seen one;
        one.world = {World{double(i)}, World{10.0 + i}};
        one.first = {{{color::Lab{double(i), 0, 0}}, {color::Lab{20.0 + i, 0, 0}}}};  // one finish of two stages
        one.on_another = {{color::Lab{40.0 + i, 0, 0}}};
        set.seen.push_back(one);
    }
    const std::vector<Set> sets = {set, set};
    const auto first = drawn(sets, 0, 1, 0, false), both = drawn(sets, 0, 1, 0, true);
    REQUIRE(first.size() == 6);
    REQUIRE(both.size() == 12);
    CHECK(first[2].l == 22);
    CHECK(both[6 + 4].l == 22);
    CHECK(both[6 + 5].l == 42);
    CHECK(drawn(sets, 0, 0, 0, false)[1].l == 1);
    const Worlds worlds(sets, 1);
    CHECK(worlds.sizes == std::vector<std::size_t>{3, 3});
    CHECK(worlds.double_sizes == std::vector<std::size_t>{6, 6});
    CHECK(worlds.first(0, 1) == 1);
    CHECK(worlds.both(0, 2) == 1);
    CHECK(worlds.both(0, 3) == 11);
    CHECK(worlds.both(0, 9) == 11);
    CHECK(worlds.apart(0, 8) == Approx(-10 * std::sqrt(0.5)));  // world 4: boards 1 and 11
    CHECK(worlds.apart(0, 9) == -worlds.apart(0, 8));
}

TEST_CASE("a tail that is longer or shorter than a normal one is a slope, and does not move the quantile") {
    // In one direction, |z| of share p stretched by e^(b (q(p) − q(0.9))), q the normal deviate: nothing at p = 0.9.
    const double size = 0.02;
    Eigen::MatrixXd j = even_slopes(size);
    j(1, 1) = j(2, 2) = 0;
    for (const double b : {-0.5, 0.5, 1.0}) {
        const GreyDrawn d(10, [&](unsigned, const World& z) {
            const double far = std::abs(z[0]), share = std::erf(far / std::sqrt(2.0));
            const double x = normal_quantile(std::clamp(share, 1e-9, 1 - 1e-9)) - normal_quantile(0.9);
            return grey_moved(size * z[0] * std::exp(b * x), 0, 0);
        });
        INFO("slope " << b);
        CHECK(d.judged(j, materials_only).de00_90 == Approx(one_90 * size).epsilon(0.02));
    }
}
