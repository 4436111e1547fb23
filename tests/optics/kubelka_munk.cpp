// The Kubelka–Munk slab and the addition of layers.

#include "foretone/optics/kubelka_munk.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

#include "random.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone::optics;
using namespace foretone::test;

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

double over(const Panel& layer, double backing) { return add(layer, {backing, 0, 0, 0}).r_above; }

Panel random_slab(Random& random, bool absorbing) {
    const double k = absorbing ? random.log_uniform(1e-6, 100) : 0.0;
    return slab(k, random.log_uniform(1e-4, 100), random.log_uniform(1e-4, 10));
}

Panel random_pile(Random& random, bool absorbing) {
    Panel pile = random_slab(random, absorbing);
    for (std::size_t i = random.below(5); i > 0; --i) pile = add(pile, random_slab(random, absorbing));
    return pile;
}

double panel_distance(const Panel& a, const Panel& b) {
    return std::max({std::abs(a.r_above - b.r_above), std::abs(a.r_below - b.r_below), std::abs(a.t_down - b.t_down),
                     std::abs(a.t_up - b.t_up)});
}

Panel reversed(const Panel& p) { return {p.r_below, p.r_above, p.t_up, p.t_down}; }

}  // namespace

TEST_CASE("slabs meet the tabulated Kubelka-Munk solutions to 1e-8 of their value") {
    double worst = 0;
    std::string where;
    for (const Row& row : table("kubelka_munk_layers.csv")) {
        // Computed from Kubelka & Munk 1931 and Kubelka 1948, printed to nine significant digits.
        const Panel p = slab(row.number("K"), row.number("S"), row.number("X"));
        const auto compare = [&](const char* column, double got) {
            const double expected = row.number(column);
            const double off = expected == 0 ? std::abs(got) : std::abs(got / expected - 1);
            if (!(off <= worst)) {
                worst = off;
                where = row.text("K") + "," + row.text("S") + "," + row.text("X") + " " + column;
            }
        };
        compare("R0_layer", p.r_above);
        compare("T_layer", p.t_down);
        compare("R_over_0", over(p, 0));
        compare("R_over_0.2", over(p, 0.2));
        compare("R_over_0.5", over(p, 0.5));
        compare("R_over_0.8", over(p, 0.8));
        compare("R_over_1", over(p, 1));
    }
    CAPTURE(where);
    CHECK_THAT(worst, Near(0, 1e-8));
}

TEST_CASE("R-infinity meets the table and is undone by K over S") {
    for (const Row& row : table("kubelka_munk_rinf.csv")) {
        const double ratio = row.number("K_over_S");
        CAPTURE(ratio);
        // Computed from R∞ = 1 + K/S − √((K/S)² + 2K/S) (Kubelka & Munk 1931), nine digits.
        CHECK_THAT(r_infinity(ratio) / row.number("Rinf"), Near(1, 1e-8));
        CHECK_THAT(k_over_s(r_infinity(ratio)) / ratio, Near(1, 1e-11));
    }
    CHECK(r_infinity(0) == 1);
    CHECK(r_infinity(infinity) == 0);
}

TEST_CASE("a slab keeps its limits where absorption, scattering or thickness vanish or grow without end") {
    CHECK_THAT(slab(0, 2, 3).r_above, Near(6.0 / 7, identity));  // Sd/(1 + Sd), K = 0: Kubelka 1948
    CHECK_THAT(slab(1e-300, 2, 3).r_above, Near(6.0 / 7, identity));
    CHECK_THAT(slab(2, 0, 0.5).t_down, Near(std::exp(-1.0), identity));  // S = 0: exp(−Kd)
    CHECK(slab(2, 0, 0.5).r_above == 0);
    CHECK(slab(3, 5, 0).t_up == 1);
    CHECK(slab(3, 5, 0).r_below == 0);
    CHECK_THAT(slab(0.1, 1, infinity).r_above, Near(slab(0.1, 1, 1e6).r_above, identity));
    CHECK(slab(0.1, 1, 1e300).t_down == 0);
    CHECK_THAT(slab(1e200, 1e200, 1e50).r_above, Near(r_infinity(1), identity));
    CHECK(slab(0, 1, infinity).r_above == 1);
    CHECK(slab(1, 0, infinity).r_above == 0);
}

TEST_CASE("cutting a slab in two changes nothing, over 10,000 random slabs") {
    Random random(1);
    double worst = 0;
    for (int i = 0; i < 10000; ++i) {
        const double k = random.log_uniform(1e-8, 100), s = random.log_uniform(1e-6, 100),
                     d = random.log_uniform(1e-4, 10);
        const double x = random.uniform(0, 1);
        worst = worst_of(worst, panel_distance(slab(k, s, d), add(slab(k, s, x * d), slab(k, s, (1 - x) * d))));
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("adding is associative, and a pile turned over is the pile of the layers turned over") {
    Random random(2);
    double worst = 0;
    for (int i = 0; i < 10000; ++i) {
        const Panel a = random_pile(random, true), b = random_pile(random, true), c = random_pile(random, true);
        worst = worst_of(worst, panel_distance(add(add(a, b), c), add(a, add(b, c))));
        worst = worst_of(worst, panel_distance(reversed(add(a, b)), add(reversed(b), reversed(a))));
        worst = worst_of(worst, std::abs(add(a, b).t_down - add(a, b).t_up));  // reciprocity of equal media
    }
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("no pile gives back more light than it gets, and one that absorbs nothing gives back all") {
    Random random(3);
    double most = 0, white = 0, furnace = 0;
    for (int i = 0; i < 10000; ++i) {
        const Panel grey = random_pile(random, true), clear = random_pile(random, false);
        most = worst_of({most, grey.r_above + grey.t_down, grey.r_below + grey.t_up});
        white = worst_of(white, std::abs(clear.r_above + clear.t_down - 1));
        furnace = worst_of(furnace, std::abs(over(clear, 1) - 1));
    }
    CHECK(most <= 1);
    CHECK_THAT(white, Near(0, identity));
    CHECK_THAT(furnace, Near(0, identity));
}

TEST_CASE("two panels that reflect everything where they meet exchange nothing") {
    const Panel sealed = add({1, 1, 0, 0}, {1, 1, 0, 0});
    CHECK(sealed.t_down == 0);
    CHECK(sealed.r_above == 1);
}

TEST_CASE("coefficients out of range are refused with their value") {
    CHECK_THROWS_WITH(slab(-0.5, 1, 1), Catch::Contains("absorption") && Catch::Contains("-0.5"));
    CHECK_THROWS_WITH(slab(1, -2, 1), Catch::Contains("scattering"));
    CHECK_THROWS_AS(slab(1, 1, -1), std::invalid_argument);
    CHECK_THROWS_AS(slab(0, 0, infinity), std::invalid_argument);
    CHECK_THROWS_AS(slab(infinity, 1, 1), std::invalid_argument);
    CHECK_THROWS_AS(k_over_s(0), std::invalid_argument);
    CHECK_THROWS_AS(r_infinity(-1), std::invalid_argument);
}

TEST_CASE("a slab without end reflects by its ratio K/S alone, whatever the two are") {
    for (const double ratio : {0.0, 0.003, 0.1, 2.0, 40.0})
        for (const double s : {0.01, 1.0, 7.0, 300.0})
            CHECK_THAT(slab(ratio * s, s, infinity).r_above, Near(r_infinity(ratio), closed_form));
    CHECK(slab(3, 0, infinity).r_above == 0);
}
