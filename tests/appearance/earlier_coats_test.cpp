// Pores remember: what an earlier coat has filled is not there for the next, dry, damp or in what is seen.

#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/appearance/board.hpp"
#include "foretone/appearance/render.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;

namespace {

schedule::Deposit coat_laid(const std::string& id, double wet_um) {
    static const auto materials = small_materials();
    schedule::Step s;
    s.mix = {{id, schedule::Amount::parts, 1}};
    s.wet_um = wet_um;
    return schedule::deposit(s, materials);
}

// The materials' oil: 150 µm deep at absorbency 1, into wood that is half pores, of which a fifth stays up.
schedule::Deposit oiled_coat(double wet_um) { return coat_laid("oil", wet_um); }

// Half of it water, which goes as deep.
schedule::Deposit varnished_coat(double wet_um) { return coat_laid("varnish", wet_um); }

const material::Wood& porous_wood() {
    static const auto materials = small_materials();
    return std::get<material::Wood>(materials.at("wood").data);
}

double filled_to(const Board& b, double depth_um) {
    double fill = 0;
    for (const auto& s : b.zone)
        if (s.depth_um >= depth_um) fill += s.fill;
    return fill;
}

}  // namespace

TEST_CASE("coat after coat of oil takes less in, and all of them together no more than the pores hold") {
    Board b;
    double before = 1e9, together = 0;
    for (int coat = 0; coat < 8; ++coat) {
        b = after_drying(b, oiled_coat(40), porous_wood());
        const double in = b.account.binder.in;
        INFO("coat " << coat + 1 << ": " << in << " g/m2");
        CHECK(in < before);
        before = in;
        together += in;  // density 1: g/m² are µm
        CHECK(filled_to(b, 100) <= 1 + closed_form);
    }
    CHECK(together <= 0.5 * 150 + closed_form);
}

TEST_CASE("where one coat has filled the pores no other finds room, neither its binder nor its liquid") {
    // 200 µm, of which 160 would soak into the 75 that the pores hold.
    const Board full = after_drying({}, oiled_coat(200), porous_wood());
    CHECK_THAT(full.account.binder.in, Near(0.5 * 150, closed_form));
    CHECK_THAT(filled_to(full, 149), Near(1, closed_form));
    CHECK(after_drying(full, oiled_coat(40), porous_wood()).account.binder.in == 0);
    const auto damp = while_wet(full, varnished_coat(100), porous_wood());
    CHECK_THAT(filled_to(damp, 1), Near(1, closed_form));
    // On bare wood both go in.
    CHECK(after_drying({}, oiled_coat(40), porous_wood()).account.binder.in > 30);
    CHECK(filled_to(while_wet({}, varnished_coat(100), porous_wood()), 1) > 0.3);
}

TEST_CASE("the more of the pores is filled, the darker the wood, however many coats it took") {
    const auto solver = two_flux_solver();
    const auto seen = [&](const std::vector<double>& fills) {
        Board b;
        for (const double fill : fills) b.zone.push_back({100, {}, {}, fill, 1.5});
        return render(b, porous_wood(), optics::Geometry::g45_0, solver).total()[40];
    };
    CHECK_THAT(seen({0.4, 0.6}), Near(seen({1}), closed_form));
    CHECK_THAT(seen({0.1, 0.2, 0.3}), Near(seen({0.6}), closed_form));
    CHECK(seen({0.5}) < seen({}));
    CHECK(seen({1}) < seen({0.5}));
}
