// The one pruning of the engine: ΔE00 ≥ |ΔL*|/S_L. It must never leave out a recipe that is closer than one kept.

#include <catch2/catch.hpp>

#include "search/small_space.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;

namespace {

// One topcoat at many sheens: the recipes differ by surface light, which is by lightness and little else.
search::Choices sheens() {
    search::Choices c;
    c.topcoat = search::CoatChoices{{"oil-varnish"}, {}, {2}, material::Method::brush, {}, {}, {}, false};
    for (int gu = 10; gu <= 90; gu += 5) c.topcoat->sheen_gu60.push_back(gu);
    return c;
}

}  // namespace

TEST_CASE("a recipe that is closer by a little, and by lightness alone, takes the place of the one kept") {
    const auto materials = materials_for("hard-maple");
    const auto space = search::make_space(sheens(), materials);
    REQUIRE(space.size() == 17);
    const auto solver = appearance::two_flux_solver();
    const search::Setting setting{materials, "hard-maple", optics::Geometry::g45_0, solver};
    std::vector<color::Lab> seen;
    const auto w = weights({"D65"}).front();
    for (std::uint64_t n = 0; n < space.size(); ++n)
        seen.push_back(color::to_lab(color::xyz(search::finished(setting, search::recipe(space, n)), w), w.white));
    // The target: the last sheen's hue and chroma, paler or darker by so much that all recipes lie on one side.
    for (const double beyond : {-12.0, -6.0, -3.0, 3.0, 6.0, 12.0}) {
        color::Lab target = beyond < 0 ? seen.back() : seen.front();
        target.l += beyond;
        const search::Aim aim{{{"D65", w, target}}};
        double least = 1e9;
        for (const auto& c : seen) least = least_of(least, color::delta_e_00(target, c));
        const auto best = examined(search::Engine(space, setting, aim), space, 1).closest(1);
        REQUIRE(best.size() == 1);
        INFO("target " << beyond << " beyond the recipes");
        CHECK_THAT(best.front().de00, Near(least, 1e-6));
    }
}

TEST_CASE("the bound is one: no pair of colors lies nearer than their lightnesses say") {
    // ΔE00² = (ΔL′/S_L)² + a quadratic form in ΔC′ and ΔH′ that is not negative, as |R_T| ≤ 2 (Sharma, Wu & Dalal
    // 2005).
    std::mt19937_64 random(5);
    const auto unit = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
    double worst = -1;
    for (int i = 0; i < 20'000; ++i) {
        const color::Lab p{100 * unit(), 160 * unit() - 80, 160 * unit() - 80};
        const double near = i % 2 ? 1 : 0.05;
        const color::Lab q{p.l + near * 20 * (unit() - 0.5), p.a + near * 40 * (unit() - 0.5),
                           p.b + near * 40 * (unit() - 0.5)};
        const double mean = (p.l + q.l) / 2 - 50;
        const double s_l = 1 + 0.015 * mean * mean / std::sqrt(20 + mean * mean);
        worst = worst_of(worst, std::abs(p.l - q.l) / s_l - color::delta_e_00(p, q));
    }
    CHECK(worst < closed_form);
}
