#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/appearance/board.hpp"
#include "foretone/appearance/tones.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

const material::Materials board_materials = small_materials();
const auto& board_wood = std::get<material::Wood>(board_materials.at("wood").data);

schedule::Deposit coat_of(const std::string& id, double wet_um) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    s.wet_um = wet_um;
    return schedule::deposit(s, board_materials);
}

double soaked_um(const Board& b) {
    double um = 0;
    for (const auto& s : b.zone) um += s.fill * s.depth_um * board_wood.porosity.value;
    return um;
}

// Absorbance that the board holds at one wavelength, wherever it went.
double absorbance(const Board& b) {
    double a = 0;
    for (const auto& s : b.zone) a += s.absorbance[5];
    for (const auto& c : b.coats) a += c.absorption_per_mm[5] * c.thickness_um / 1000;
    return a;
}

}  // namespace

TEST_CASE("a brushed film's volume is all on the wood or in it") {
    Board b;
    double put_on = 0;
    for (int i = 0; i < 4; ++i) {
        b = after_drying(b, coat_of("varnish", 60), board_wood);
        put_on += 30;
        CHECK_THAT(b.film_um + soaked_um(b), Near(put_on, closed_form));
    }
    CHECK_THAT(absorbance(b), Near(put_on / 1000 * 2, closed_form));  // 2 per mm: its color is all there too
}

TEST_CASE("the first coat on open wood leaves the share that stays, the next ones all but what still goes in") {
    const Board one = after_drying({}, coat_of("varnish", 60), board_wood);
    CHECK_THAT(one.film_um, Near(0.8 * 30, identity));
    const Board two = after_drying(one, coat_of("varnish", 60), board_wood);
    schedule::Ground sealed;  // 24 µm of film over a level of 5, 6 µm in 40 µm of half-porous wood
    sealed.level_um = 5;
    sealed.film_um = 24;
    sealed.filled = {{40, 6 / (0.5 * 40)}};
    const double in = 0.2 * 30 * schedule::suction({}, sealed);
    CHECK(in > 0);
    CHECK_THAT(two.film_um - one.film_um, Near(30 - in, closed_form));
}

TEST_CASE("a binder soaks no further than the pores hold") {
    const Board b = after_drying({}, coat_of("varnish", 500),
                                 board_wood);  // 250 µm dry, 50 of them would soak; 40 µm deep at half porosity hold 20
    CHECK_THAT(soaked_um(b), Near(20, closed_form));
    CHECK_THAT(b.film_um, Near(230, closed_form));
}

TEST_CASE("a wiped oil leaves only what stays; what wood and wiping leave no room for is gone") {
    Board b;
    for (int i = 0; i < 10; ++i) b = after_drying(b, coat_of("oil", 40), board_wood);
    CHECK_THAT(b.film_um, Near(10 * 0.2 * 40, closed_form));
    CHECK(soaked_um(b) <= 150 * 0.5 + 1e-9);
}

TEST_CASE("dye goes into open wood, and dries on top of a sealed one in spots") {
    auto dye = coat_of("stock", 50);
    const Board raw = after_drying({}, dye, board_wood);
    CHECK(raw.coats.empty());
    CHECK_THAT(absorbance(raw), Near(dye.dye_absorbance[5], identity));
    // 51 g/m2 where the file's 150 µm are for 70: so much less deep as it fills less (√).
    CHECK_THAT(raw.zone.at(0).depth_um, Near(150 * std::sqrt(51.0 / 70), closed_form));

    dye.method = material::Method::spray;
    dye.wiped = false;
    const Board film = after_drying({}, coat_of("varnish", 200), board_wood);
    const Board sealed = after_drying(film, dye, board_wood);
    CHECK(sealed.account.dye.in < 1e-4 * sealed.account.dye.laid);
    CHECK_THAT(sealed.account.dye.on, Near(sealed.account.dye.laid - sealed.account.dye.in, closed_form));
    REQUIRE(sealed.coats.back().loose);
    // Strong dye in spots lets through what goes beside them: −ln(1 − share).
    CHECK_THAT(sealed.coats.back().absorption_per_mm[5] * sealed.coats.back().thickness_um / 1000,
               Near(-std::log1p(-sealed.law.spotted), 1e-6));
    CHECK(sealed.film_um == film.film_um);
}

TEST_CASE("weak color in spots tells in full, strong color no more than the area of its spots") {
    double before = 0;
    for (const double strength : {1e-5, 1e-4, 1e-3, 0.01, 0.05}) {
        auto dye = schedule::thicker(coat_of("stock", 50), 1);
        dye.method = material::Method::spray;
        dye.wiped = false;
        for (double& v : dye.dye_absorbance) v *= strength;
        const Board sealed = after_drying(after_drying({}, coat_of("varnish", 200), board_wood), dye, board_wood);
        const double a = sealed.coats.back().absorption_per_mm[5] * sealed.coats.back().thickness_um / 1000;
        CHECK(a > before);
        CHECK(a <= dye.dye_absorbance[5]);
        if (strength == 1e-5)
            CHECK_THAT(a / dye.dye_absorbance[5], Near(1, 0.003));  // 1 − A/2c + …, A = 1e-4, c = 0.02
        before = a;
    }
}

TEST_CASE("an empty seal is no seal, and a trace of one is a trace") {
    const auto dye = coat_of("stock", 50);
    const Board plain = after_drying({}, dye, board_wood);
    double before = 0;
    for (const double um : {1e-9, 1e-6, 1e-3}) {
        auto seal = coat_of("varnish", 60);
        seal.binder_um = um;
        const Board sealed = after_drying(after_drying({}, seal, board_wood), dye, board_wood);
        const double lost = 1 - sealed.account.dye.in / plain.account.dye.in;
        CHECK(lost > before);
        CHECK(lost < um);  // no jump: in proportion to the seal
        before = lost;
    }
}

TEST_CASE("a board's past, put on again at its mean spot, is the same board") {
    Board b;
    for (const std::string id : {"resin", "stock", "varnish", "varnish"})
        b = after_drying(b, coat_of(id, 60), board_wood);
    const Board again = at_uptake(b, 1);
    REQUIRE(again.zone.size() == b.zone.size());
    REQUIRE(again.coats.size() == b.coats.size());
    for (std::size_t i = 0; i < b.zone.size(); ++i) {
        CHECK(again.zone[i].depth_um == b.zone[i].depth_um);
        CHECK(again.zone[i].absorbance[5] == b.zone[i].absorbance[5]);
    }
    CHECK(again.film_um == b.film_um);
    CHECK(at_uptake(at_uptake(b, 2), 0.5).account.dye.in == b.account.dye.in);
}

TEST_CASE("a wet board is covered everywhere; the liquid fills its share of the pores and no more") {
    const Board wet = while_wet({}, coat_of("stock", 400), board_wood);
    CHECK(wet.covered(board_wood) == 1);
    CHECK_THAT(wet.zone.back().fill, Near(0.4, closed_form));
    const Board damp = while_wet({}, coat_of("stock", 5), board_wood);
    CHECK_THAT(damp.zone.back().fill, Near(5 / (0.5 * 150), closed_form));
    CHECK(after_drying({}, coat_of("stock", 400), board_wood).covered(board_wood) == 0);
}
