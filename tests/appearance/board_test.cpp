#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/appearance/board.hpp"
#include "schedule/shelf.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

const material::Shelf board_shelf = small_shelf();
const auto& board_wood = std::get<material::Wood>(board_shelf.at("wood").data);

schedule::Deposit coat_of(const std::string& id, double wet_um) {
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    s.wet_um = wet_um;
    return schedule::deposit(s, board_shelf);
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

TEST_CASE("the first coat on open wood leaves the share that stays, the next ones all but what finds open wood") {
    const Board one = after_drying({}, coat_of("varnish", 60), board_wood);
    CHECK_THAT(one.film_um, Near(0.8 * 30, identity));
    const Board two = after_drying(one, coat_of("varnish", 60), board_wood);
    const double open = std::exp(-one.film_um / 5);
    CHECK_THAT(two.film_um - one.film_um, Near(30 - 0.2 * open * 30, closed_form));
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

TEST_CASE("dye goes into open wood, and dries on top of a sealed one") {
    const auto dye = coat_of("stock", 50);
    const Board raw = after_drying({}, dye, board_wood);
    CHECK(raw.coats.empty());
    CHECK_THAT(absorbance(raw), Near(dye.dye_absorbance[5], identity));
    CHECK(raw.zone.at(0).depth_um == 150);

    const Board sealed = after_drying(after_drying({}, coat_of("varnish", 200), board_wood), dye, board_wood);
    double in_wood = 0;
    for (const auto& s : sealed.zone)
        if (s.depth_um == 150) in_wood += s.absorbance[5];
    CHECK(in_wood < 1e-6 * dye.dye_absorbance[5]);
    const auto before = absorbance(after_drying({}, coat_of("varnish", 200), board_wood));
    CHECK_THAT(absorbance(sealed) - before, Near(dye.dye_absorbance[5], closed_form));
}

TEST_CASE("a wet board is covered everywhere; the liquid fills its share of the pores and no more") {
    const Board wet = while_wet({}, coat_of("stock", 400), board_wood);
    CHECK(wet.covered(board_wood) == 1);
    CHECK_THAT(wet.zone.back().fill, Near(0.4, closed_form));
    const Board damp = while_wet({}, coat_of("stock", 5), board_wood);
    CHECK_THAT(damp.zone.back().fill, Near(5 / (0.5 * 150), closed_form));
    CHECK(after_drying({}, coat_of("stock", 400), board_wood).covered(board_wood) == 0);
}
