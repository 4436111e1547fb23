#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "foretone/schedule/ground.hpp"
#include "foretone/schedule/suction.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

const UptakeLaw law;

// Washburn (1921), equation for a horizontal capillary wetted without limit: dL/dt = c/L, integrated step by step from
// an analytic start.
double washburn_by_steps(double c, double minutes) {
    const int steps = 200000;
    double t = minutes * 1e-6, length = std::sqrt(2 * c * t);
    const double dt = (minutes - t) / steps;
    for (int i = 0; i < steps; ++i) {  // midpoint rule
        const double half = length + 0.5 * dt * c / length;
        length += dt * c / half;
    }
    return length;
}

}  // namespace

TEST_CASE("suction follows Washburn's differential equation") {
    // dV/dt = c/V with V(2 min) = suction: c = suction²/(2·2 min).
    const double c = law.suction_g_per_m2 * law.suction_g_per_m2 / (2 * usual_flood_min);
    for (const double minutes : {0.5, 2.0, 7.0, 30.0})
        CHECK_THAT(drawn_g_per_m2(law, 1, minutes), Near(washburn_by_steps(c, minutes), 1e-3));  // step width
    CHECK(drawn_g_per_m2(law, 1, 0) == 0);
    CHECK_THAT(drawn_g_per_m2(law, 1.6, 2), Near(1.6 * law.suction_g_per_m2, closed_form));
}

TEST_CASE("no seal leaves bare wood's suction as it is, exactly") {
    CHECK(open_share(law, 0, 4) == 1);
    CHECK(plug(law, 0) == 0);
    for (const double u : {0.0, 0.3, 1.0, 2.7}) CHECK(conductance(1, 0, u) == u);
    CHECK(conductance(0, 0, 1) == 0);
}

TEST_CASE("more film and more binder each make suction less, down to nothing and never below") {
    double before = 2;
    for (double film = 0; film < 60; film += 0.5) {
        const double now = open_share(law, film, 4);
        CHECK(now < before);
        CHECK(now > 0);
        before = now;
    }
    before = -1;
    for (double fill = 0; fill <= 1; fill += 0.02) {
        const double now = plug(law, fill);
        CHECK(now > before);
        CHECK(now < law.plug_most);
        before = now;
    }
}

TEST_CASE("a seal evens: the ratio between a spot that takes much and one that takes little falls with it") {
    double before = 10;
    for (const double fill : {0.0, 0.01, 0.02, 0.05, 0.1, 0.3, 1.0}) {
        const double ratio = conductance(1, plug(law, fill), 1.8) / conductance(1, plug(law, fill), 0.6);
        CHECK(ratio < before);
        CHECK(ratio > 1);  // it evens and never turns the pattern over
        before = ratio;
    }
}

TEST_CASE("the logarithmic slope over spots is g/uptake, as the header says: less and flatter go together") {
    for (const double p : {0.0, 0.4, 1.6})
        for (const double u : {0.5, 1.0, 2.0}) {
            const double h = 1e-5;
            const double slope =
                std::log(conductance(0.7, p, u * std::exp(h)) / conductance(0.7, p, u * std::exp(-h))) / (2 * h);
            CHECK_THAT(slope, Near(conductance(0.7, p, u) / u, 1e-8));  // central difference, h²
        }
}

TEST_CASE("every figure of common practice has a name of its own, a spread, a source, and lies in its range") {
    std::set<std::string> names;
    for (const auto& f : uptake_figures()) {
        INFO(f.name);
        CHECK(names.insert(f.name).second);
        CHECK(f.sd > 0);
        CHECK(law.*f.at >= f.low);
        CHECK(law.*f.at <= f.high);
        CHECK(f.from.mark == material::Mark::practice);
        CHECK(f.from.source.substr(0, 16) == "common practice:");
    }
    CHECK(names.size() * sizeof(double) == sizeof(UptakeLaw));  // none is left out
}

TEST_CASE("finer paper levels sooner and takes less; raised grain the other way") {
    double level = 0, takes = 0;
    for (const double grit : {600.0, 320.0, 220.0, 180.0, 120.0, 80.0}) {
        CHECK(level_um(law, 4, {grit, 0}) > level);
        CHECK(taking(law, {grit, 0}) > takes);
        level = level_um(law, 4, {grit, 0});
        takes = taking(law, {grit, 0});
        CHECK(level_um(law, 4, {grit, 1}) > level);
        CHECK(taking(law, {grit, 1}) > takes);
    }
    CHECK(level_um(law, 4, {}) == 4);
    CHECK(taking(law, {}) == 1);
    CHECK(level_um(law, 3, {100000, 0}) >= 1);  // pores are left
}

TEST_CASE("pores: what is filled is not free, and no depth is filled twice over") {
    Ground g;
    CHECK_THAT(free_pores_um(law, g, 100), Near(50, identity));
    g.filled = {{40, 0.5}, {200, 0.1}};
    CHECK_THAT(free_pores_um(law, g, 100), Near(0.5 * (100 - 20 - 10), identity));
    CHECK_THAT(outer_fill(law, g), Near(0.6, identity));
    g.filled.push_back({40, 0.9});
    CHECK(outer_fill(law, g) == 1);
    CHECK(free_pores_um(law, g, 30) == 0);
    g.filled.clear();
    g.filled = {{40, 0.1}};
    g.uptake = 4;
    CHECK_THAT(outer_fill(law, g), Near(0.2, identity));
    g.filled.clear();
    CHECK_THAT(free_pores_um(law, g, 100), Near(100, identity));  // twice as roomy
}
