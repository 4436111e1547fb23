#include "foretone/appearance/spread.hpp"

#include <catch2/catch.hpp>
#include <cmath>
#include <set>

#include "foretone/appearance/lattice.hpp"
#include "foretone/material/figures.hpp"
#include "schedule/small_materials.hpp"
#include "support/standards.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using optics::Geometry;

namespace {

schedule::Step coats_of(const std::string& id, int coats) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    s.coats = coats;
    return s;
}

const std::vector<color::Weights> d65 = {color::make_weights(light("D65"), observer("2deg"))};

Spread spread_of(const material::Materials& materials, const std::vector<schedule::Step>& steps,
                 double hand = wet_film_spread) {
    Knowledge knowledge;
    knowledge.hand = hand;
    knowledge.uptake = 0;
    return spread(materials, "wood", {"test", steps}, Geometry::g45_0, two_flux_solver(), d65, knowledge);
}

// Every figure unsure by that share of its value.
material::Materials unsure_materials(double share) {
    auto materials = small_materials();
    for (auto& [id, m] : materials)
        for (const auto& f : material::figures(m)) {
            if (f.figure)
                f.figure->sd = share * std::abs(f.figure->value);
            else
                f.spectrum->sd = share;
        }
    return materials;
}

const std::size_t all_draws = draw_sets * lattice_points * boards_of_a_world;

bool same(const Region& p, const Region& q) {
    return p.mean == q.mean && p.covariance == q.covariance && p.rms_de00 == q.rms_de00 && p.de00_90 == q.de00_90;
}

}  // namespace

TEST_CASE("no figure unsure and a sure hand: no spread, to the bit") {
    const auto s = spread_of(small_materials(), {coats_of("stock", 1), coats_of("varnish", 2)}, 0);
    CHECK(s.contributions.empty());
    bool zero = true;
    for (const auto& stage : s.regions) {
        const auto& r = stage[0];
        zero = zero && r.rms_de00 == 0 && r.de00_90 == 0 && r.axes[0].length == 0 &&
               r.covariance == decltype(r.covariance){};
    }
    CHECK(zero);
    CHECK(s.regions.size() == 5);
}

TEST_CASE("without spreads among the materials only the hand's spread is left") {
    const auto s = spread_of(small_materials(), {coats_of("varnish", 1)});
    REQUIRE(s.contributions.size() == 1);
    CHECK(s.contributions[0].what == "step 1 wet film");
    CHECK(s.de00(0, 0) == 0);  // bare wood rests on no film
    CHECK(s.de00(1, 0) > 0);
}

TEST_CASE("a small spread is the contributions added in squares, largest first") {
    // Small spreads make every color linear in every figure; there the draws and the first-order sum are two ways to
    // one figure. What is left is the quadrature's error: some hundred worlds, and ΔE00 itself is not quite a norm.
    auto materials = small_materials();
    auto& wood = std::get<material::Wood>(materials.at("wood").data);
    wood.reflectance.sd = 0.01;
    wood.surface_k2.sd = 0.005;
    const auto s = spread_of(materials, {coats_of("varnish", 2)}, 0.015);
    REQUIRE(s.contributions.size() == 4);  // the wood's reflectance from the stock and from board to board
    double sum = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        sum += s.contributions[i].de00 * s.contributions[i].de00;
        if (i > 0) CHECK(s.contributions[i].de00 <= s.contributions[i - 1].de00);
    }
    CHECK_THAT(s.de00(2, 0) / std::sqrt(sum), Near(1, 0.02));
}

TEST_CASE("twice the standard deviations, twice a small spread") {
    const std::vector<schedule::Step> steps = {coats_of("stock", 1), coats_of("varnish", 2)};
    const auto once = spread_of(unsure_materials(0.005), steps, 0.005),
               twice = spread_of(unsure_materials(0.01), steps, 0.01);
    for (std::size_t s = 0; s < once.regions.size(); ++s) {
        CHECK_THAT(twice.de00(s, 0) / once.de00(s, 0), Near(2, 0.05));
        CHECK_THAT(twice.regions[s][0].de00_90 / once.regions[s][0].de00_90, Near(2, 0.05));
        CHECK_THAT(twice.regions[s][0].axes[0].length / once.regions[s][0].axes[0].length, Near(2, 0.05));
    }
}

TEST_CASE("the coats of a step go wrong together, those of two steps apart") {
    // Of n coats with standard deviation 1 and correlation r the sum has √(n + n(n−1) r): for two coats √3 with r =
    // 1/2, √2 with 0.
    const auto together = spread_of(small_materials(), {coats_of("varnish", 2)}, 0.05);
    const auto apart = spread_of(small_materials(), {coats_of("varnish", 1), coats_of("varnish", 1)}, 0.05);
    CHECK_THAT(together.regions.back()[0].rms_de00 / apart.regions.back()[0].rms_de00, Near(std::sqrt(1.5), 0.06));
    CHECK_THAT(together.contributions[0].de00 / std::hypot(apart.contributions[0].de00, apart.contributions[1].de00),
               Near(std::sqrt(1.5), 0.03));
}

TEST_CASE("a material used twice is one thing: its figure is listed once and moves every use") {
    auto materials = small_materials();
    std::get<material::Binder>(materials.at("varnish").data).absorption_per_mm->sd = 0.02;
    const auto once = spread_of(materials, {coats_of("varnish", 2)}, 0);
    const auto parted = spread_of(materials, {coats_of("varnish", 1), coats_of("varnish", 1)}, 0);
    REQUIRE(parted.contributions.size() == 1);
    CHECK_THAT(parted.regions.back()[0].rms_de00, Near(once.regions.back()[0].rms_de00, identity));
}

TEST_CASE("the same input gives the same draws") {
    const std::vector<schedule::Step> steps = {coats_of("stock", 1), coats_of("varnish", 2)};
    const auto p = spread_of(unsure_materials(0.1), steps), q = spread_of(unsure_materials(0.1), steps);
    CHECK(p.finished == q.finished);
    bool all = true;
    for (std::size_t s = 0; s < p.regions.size(); ++s) all = all && same(p.regions[s][0], q.regions[s][0]);
    CHECK(all);
}

TEST_CASE("a draw that cannot be put on is drawn again, and all draws are there") {
    auto materials = small_materials();
    std::get<material::Binder>(materials.at("varnish").data).density_g_per_ml->sd = 0.05;
    auto step = coats_of("varnish", 1);
    step.wet_g_per_m2 = 499;  // 499 µm at 1 g/mL; a coat ends at 500
    const auto s = spread_of(materials, {step});
    CHECK(s.redrawn > all_draws / 5);
    CHECK(s.finished[0].size() >= all_draws);
    CHECK(s.finished[0].size() % draws_of_a_set == 0);  // no set is short
    CHECK(spread_of(materials, {step}).finished == s.finished);
    step.wet_g_per_m2 = 501;
    CHECK_THROWS_AS(spread_of(materials, {step}), schedule::Fault);
}

TEST_CASE("a material between soaking and standing keeps its stages in every draw") {
    auto materials = small_materials();
    auto& stay = std::get<material::Binder>(materials.at("varnish").data).stay;
    stay.value = 0.49;  // below one half it is seen damp and dry
    stay.sd = 0.2;
    auto step = coats_of("varnish", 2);
    step.wet_um = 60;
    const auto s = spread_of(materials, {step});
    CHECK(s.regions.size() == 5);
    CHECK(s.finished[0].size() == all_draws);
}

TEST_CASE("bare wood alone and more unsure figures than the lattice has dimensions both work") {
    auto materials = unsure_materials(0.02);
    CHECK(spread_of(materials, {}).regions.size() == 1);
    SpreadQuestion many{materials,         "wood", {{"test", {coats_of("varnish", 70)}}}, Geometry::g45_0,
                        two_flux_solver(), d65};
    many.stages = StagesAsked::last;
    many.drawing.most_sets = many.drawing.sets = 2;
    CHECK(spreads(many)[0].regions.back()[0].rms_de00 > 0);
}

TEST_CASE("a result rests on the weakest mark it uses, and says whose") {
    auto materials = small_materials();
    for (auto& [id, m] : materials)
        for (const auto& f : material::figures(m)) f.from().mark = material::Mark::published;
    const std::vector<schedule::Step> finish = {coats_of("varnish", 1)};
    CHECK(spread_of(materials, finish).rests_on == material::Mark::published);
    std::get<material::Binder>(materials.at("varnish").data).stay.from.mark = material::Mark::memory;
    std::get<material::Binder>(materials.at("oil").data).stay.from.mark = material::Mark::memory;  // not used here
    const auto s = spread_of(materials, finish);
    CHECK(s.rests_on == material::Mark::memory);
    CHECK(s.weakest == std::vector<std::string>{"varnish"});
}
