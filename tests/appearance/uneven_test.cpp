// The tenths of a board that take least and most.

#include "foretone/appearance/uneven.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "appearance/finishes.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

TEST_CASE("the outer tenths lie at the mean deviate of a tenth, about an uptake whose mean is one") {
    // u = exp(s z − s²/2); the mean of z over the outer tenth is φ(1.28155)/0.1 = 0.17550/0.1 (normal tables).
    for (const double s : {0.0, 0.1, 0.3, 0.6, 1.2}) {
        const auto [least, most] = outer_tenths(s);
        CHECK_THAT(std::log(most / least), Near(2 * 1.7550 * s, 1e-3));
        CHECK_THAT(std::log(most * least), Near(-s * s, closed_form));
    }
}

TEST_CASE("an even wood has no outer tenths that differ; the more a wood blotches, the less even it is") {
    const auto solver = two_flux_solver();
    const auto board = boards(whole_library(), "pine", {"", {dye_step("umber-dye", 9)}}).back();
    const auto w = color::make_weights(light("D65"), observer("2deg"));
    double before = -1;
    for (const double blotch : {0.0, 0.1, 0.2, 0.4}) {
        auto wood = wood_of("pine");
        REQUIRE(wood.grain);
        wood.grain->blotch.value = blotch;
        const double de = uneven_de00(tenths(board, wood, optics::Geometry::g45_0, solver), w);
        CHECK(de > before);
        if (blotch == 0) CHECK(de == 0);
        before = de;
    }
    CHECK(uneven_word(0.99) == "even");
    CHECK(uneven_word(1) == "slightly uneven");
    CHECK(uneven_word(2) == "uneven");
    CHECK(uneven_word(4) == "blotchy");
}
