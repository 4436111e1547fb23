#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/schedule/lodging.hpp"
#include "foretone/schedule/uptake.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

const UptakeLaw lodging_law;

Ground flats(double grit = usual_grit) {
    Ground g;
    g.level_um = 4;
    g.ready.grit = grit;
    return g;
}

Ground oak() {
    Ground g = flats();
    g.pore_share = 0.1;
    g.pore_um = 270;
    return g;
}

Deposit stain(double percent) {
    Step s;
    s.mix = {{"pigment", Amount::percent_weight, percent}, {"water", Amount::rest, 0}};
    s.wet_um = 70;
    s.method = material::Method::wipe;
    return deposit(s, small_materials());
}

// Ferry (1936): a grain's centre finds (1 − D/w)² of a hollow of width w. Summed over exponentially spread widths,
// each weighted by its room w², by the trapezium rule.
double ferry_summed(double particle, double mean) {
    double found = 0, all = 0;
    const double step = mean * 1e-4;
    for (double w = step; w < 60 * mean; w += step) {
        const double room = w * w * std::exp(-w / mean);
        all += room;
        if (w > particle) found += room * (1 - particle / w) * (1 - particle / w);
    }
    return found / all;
}

}  // namespace

TEST_CASE("the room that grains find is Ferry's, over hollows of all widths") {
    for (const double particle : {0.1, 1.0, 5.0, 20.0})
        CHECK_THAT(room_for_grains(particle, 10), Near(ferry_summed(particle, 10), 1e-6));  // step²
    CHECK(room_for_grains(0, 10) == 1);
    CHECK(room_for_grains(1, 0) == 0);
}

TEST_CASE("fine pigment lodges as the hollows' depth, coarse pigment is wiped off the flats and stays in pores") {
    const auto fine = lodged(lodging_law, oak(), 0), coarse = lodged(lodging_law, oak(), 40);
    CHECK_THAT(fine.flats_um, Near(lodging_law.lodging * 4, closed_form));
    CHECK_THAT(fine.pores_um, Near(lodging_law.lodging * 270, closed_form));
    CHECK(coarse.flats_um < 0.1 * fine.flats_um);
    CHECK(coarse.pores_um > 0.8 * fine.pores_um);
    CHECK(lodged(lodging_law, flats(), 1).pores_um == 0);
}

TEST_CASE("coarser paper holds more pigment, and of coarse grains more again") {
    double fine_before = 0, ratio_before = 0;
    for (const double grit : {600.0, 320.0, 220.0, 150.0, 100.0}) {
        const double fine = lodged(lodging_law, flats(grit), 0.5).flats_um,
                     coarse = lodged(lodging_law, flats(grit), 15).flats_um;
        CHECK(fine > fine_before);
        CHECK(coarse / fine > ratio_before);
        fine_before = fine;
        ratio_before = coarse / fine;
    }
}

TEST_CASE("common practice: over a sealed oak a wiped glaze stays in the pores") {
    Ground sealed = oak();
    sealed.film_um = 15;
    const auto bare = lodged(lodging_law, oak(), 2), over = lodged(lodging_law, sealed, 2);
    CHECK(over.flats_um < 0.1 * bare.flats_um);
    CHECK(over.pores_um > 0.9 * bare.pores_um);
}

TEST_CASE("flats and pores of a board make its mean, and never more than was laid on") {
    for (const double share : {0.0, 0.02, 0.1, 0.4, 1.0}) {
        Ground ground = oak();
        ground.pore_share = share;
        const auto d = stain(10);
        const auto mean = uptake(d, ground, lodging_law);
        Ground flat = ground, pore = ground;
        flat.pore_share = 0;
        pore.pore_share = 1;
        const double flats = uptake(d, flat, lodging_law, &mean).account.pigment.in,
                     pores = uptake(d, pore, lodging_law, &mean).account.pigment.in;
        INFO(share);
        CHECK_THAT((1 - share) * flats + share * pores, Near(mean.account.pigment.in, closed_form));
        CHECK(mean.account.pigment.in <= d.pigment_g * (1 + closed_form));
        CHECK(pores > 20 * flats);
    }
}

TEST_CASE("a pigment's grains are told by its file, and mixed by mass") {
    CHECK(stain(10).particle_um == 2);  // of the materials' pigment
    auto materials = small_materials();
    auto& other = materials["coarse"] = materials.at("pigment");
    other.id = "coarse";
    std::get<material::Pigment>(other.data).particle_um = material::Figure{8, 1, {}};
    Step s;
    s.mix = {{"pigment", Amount::g_per_l, 30}, {"coarse", Amount::g_per_l, 10}, {"water", Amount::parts, 1}};
    s.wet_um = 70;
    CHECK_THAT(deposit(s, materials).particle_um, Near(0.75 * 2 + 0.25 * 8, closed_form));
    std::get<material::Pigment>(other.data).particle_um.reset();
    CHECK_THAT(deposit(s, materials).particle_um, Near(2, closed_form));  // the usual width
}

TEST_CASE("paper over a share of the area moves the grit by that share, and cuts raised grain off there") {
    const Readied before{120, 1};
    CHECK(sanded(before, 220, 1).grit == 220);
    CHECK(sanded(before, 220, 1).raised == 0);
    CHECK(sanded(before, 220, 0).grit == 120);
    CHECK(sanded(before, 220, 0).raised == 1);
    CHECK_THAT(sanded(before, 480, 0.5).grit, Near(240, closed_form));
    CHECK(popped({}, 1).raised == 1);
    CHECK_THAT(popped({220, 0.5}, 0.5).raised, Near(0.75, identity));
}
