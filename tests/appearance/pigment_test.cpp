// A wiped pigment on the board: where it lies, how it looks, and what sanding over a film changes.

#include <catch2/catch.hpp>
#include <cmath>

#include "appearance/finishes.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using material::Method;
using optics::Geometry;

namespace {

const color::Weights& daylight_of_stains() {
    static const color::Weights w = color::make_weights(light("D65"), observer("2deg"));
    return w;
}

schedule::Step wiped_stain(double percent, const std::string& binder = "oil-varnish-blend") {
    auto s =
        step_of({{"red-iron-oxide", schedule::Amount::percent_weight, percent}, {binder, schedule::Amount::rest, 0}}, 1,
                Method::wipe);
    s.wet_g_per_m2 = 70;
    return s;
}

Board stained(const std::string& wood, const std::vector<schedule::Step>& steps) {
    Board board;
    for (const auto& s : steps)
        board = after_coats(board, schedule::deposit(s, whole_library()), s.coats, wood_of(wood));
    return board;
}

color::Lab look(const Board& board, const std::string& wood) {
    static const auto solver = two_flux_solver();
    return color::to_lab(
        color::xyz(render(board, wood_of(wood), Geometry::g45_0, solver).total(), daylight_of_stains()),
        daylight_of_stains().white);
}

}  // namespace

TEST_CASE("common practice: ring-porous woods take a wiped pigment in their pores") {
    for (const std::string wood : {"red-oak", "white-oak", "ash"}) {
        const Board board = stained(wood, {wiped_stain(10), coat_step("waterborne-acrylic", 2)});
        const auto flats = look(at_spot(board, 1, 0), wood), pores = look(at_spot(board, 1, 1), wood);
        INFO(wood << ": flats " << flats.l << ", pores " << pores.l);
        CHECK(pores.l < flats.l - 8);
        const auto bare = look(stained(wood, {coat_step("waterborne-acrylic", 2)}), wood);
        CHECK(color::delta_e_00(flats, bare) < color::delta_e_00(pores, bare) - 5);
    }
}

TEST_CASE("a board's stain is that of its flats and pores side by side") {
    double worst = 0;
    for (const std::string wood : {"red-oak", "ash", "soft-maple", "pine", "walnut"}) {
        const Board board = stained(wood, {wiped_stain(10)});
        const auto solver = two_flux_solver();
        const auto of = [&](const Board& b) { return render(b, wood_of(wood), Geometry::g45_0, solver).total(); };
        const auto mean = of(board), flats = of(at_spot(board, 1, 0)), pores = of(at_spot(board, 1, 1));
        REQUIRE(board.pore > 0);
        for (std::size_t i = 0; i < mean.size(); ++i)
            worst = worst_of(worst, std::abs(mean[i] - (1 - board.pore) * flats[i] - board.pore * pores[i]));
    }
    INFO(worst);
    CHECK(worst < identity);
}

TEST_CASE("a coarser pigment leaves less on the flats, and as much in the pores") {
    auto materials = whole_library();
    auto& pigment = std::get<material::Pigment>(materials.at("red-iron-oxide").data);
    const auto board_of_grains = [&](double um) {
        pigment.particle_um->value = um;
        return after_drying({}, schedule::deposit(wiped_stain(10), materials), wood_of("red-oak"));
    };
    const auto in = [](const Board& b, double pore) { return at_spot(b, 1, pore).account.pigment.in; };
    const Board fine = board_of_grains(0.5), coarse = board_of_grains(20);
    CHECK(in(coarse, 0) < 0.7 * in(fine, 0));
    CHECK(in(coarse, 1) > 0.9 * in(fine, 1));
    CHECK(look(coarse, "red-oak").l > look(fine, "red-oak").l);
}

TEST_CASE("common practice: over a sealed oak a wiped glaze shows in the pores alone") {
    const auto seal = coat_step("waterborne-acrylic", 1);
    auto glaze = wiped_stain(10);
    const Board plain = stained("red-oak", {seal}), glazed = stained("red-oak", {seal, glaze});
    const double flats =
        color::delta_e_00(look(at_spot(plain, 1, 0), "red-oak"), look(at_spot(glazed, 1, 0), "red-oak"));
    const double pores =
        color::delta_e_00(look(at_spot(plain, 1, 1), "red-oak"), look(at_spot(glazed, 1, 1), "red-oak"));
    INFO("flats " << flats << ", pores " << pores);
    CHECK(flats < pores / 3);
}

// Paper over a film scratches it and reaches wood where the film leaves it bare: as the film shrinks, the board becomes
// the one that was sanded bare, and the difference shrinks with the film.
TEST_CASE("sanding over less and less film comes to sanding bare wood") {
    for (const std::string wood : {"pine", "hard-maple", "red-oak"})
        for (const bool pigment : {false, true}) {
            const auto color_step = pigment ? wiped_stain(10) : dye_step("umber-dye", 9);
            const auto at = [&](double cut_lb) {
                std::vector<schedule::Step> steps;
                auto seal = step_of({{"super-blonde-shellac", schedule::Amount::parts, 1}}, 1, Method::brush);
                seal.cut_lb = cut_lb;
                if (cut_lb > 0) steps.push_back(seal);
                steps.push_back(color_step);
                steps.back().sand = 120;
                steps.push_back(coat_step("waterborne-acrylic", 2));
                return look(stained(wood, steps), wood);
            };
            const auto bare = at(0);
            double before = 1e9;
            for (const double cut_lb : {1e-2, 1e-3, 1e-4, 1e-5, 1e-6}) {
                const double now = color::delta_e_00(bare, at(cut_lb));
                INFO(wood << ", " << (pigment ? "pigment" : "dye") << ", " << cut_lb << " lb: " << now);
                CHECK(now < before);
                CHECK(now < 1000 * cut_lb);  // the bound of a trace of seal that is not sanded
                before = now;
            }
        }
}

TEST_CASE("a spot is a share of pores from 0 to 1 and an uptake of 0 or more") {
    const Board board = stained("ash", {wiped_stain(10)});
    for (const double pore : {-0.1, 1.5, std::nan("")}) CHECK_THROWS_AS(at_spot(board, 1, pore), std::invalid_argument);
    for (const double uptake : {-0.1, std::nan(""), HUGE_VAL})
        CHECK_THROWS_AS(at_spot(board, uptake, 0), std::invalid_argument);
    CHECK_NOTHROW(at_spot(board, 0, 1));
}

TEST_CASE("paper scratches no more than the whole of a film, and nothing where there is none") {
    auto sanded = coat_step("waterborne-acrylic", 1);
    sanded.scuff = true;
    const auto bare = stained("ash", {sanded});
    CHECK(bare.scratched == 0);
    auto thin = coat_step("waterborne-acrylic", 1);
    thin.wet_um = sanded.wet_um = 2;  // it covers little of the wood
    const auto over = stained("ash", {thin, sanded});
    CHECK(over.scratched > 0);
    CHECK(over.scratched < 0.5);
}

TEST_CASE("what changes the wood goes in as the root of a spot's uptake, as liquids do") {
    auto bleach = coat_step("two-part-bleach", 1);
    bleach.method = Method::wipe;
    const Board board = stained("hard-maple", {bleach});
    REQUIRE_FALSE(board.zone.empty());
    const double mean = board.zone.back().depth_um;
    REQUIRE(mean > 0);
    // Washburn 1921: depth as the root of what is taken up.
    CHECK_THAT(at_uptake(board, 4).zone.back().depth_um, Near(2 * mean, 1e-9 * mean));
    CHECK_THAT(at_uptake(board, 0.25).zone.back().depth_um, Near(mean / 2, 1e-9 * mean));
}

TEST_CASE("color without a binder that finds no way in lies loose: its grains fill no pore") {
    auto flood =
        step_of({{"honey-dye", schedule::Amount::parts, 1}, {"water", schedule::Amount::parts, 3}}, 1, Method::spray);
    flood.wet_g_per_m2 = 250;  // more than bare maple draws in while it is wet
    const auto bare = stained("hard-maple", {flood});
    REQUIRE(bare.coats.empty());
    REQUIRE(bare.zone.size() >= 2);  // what went in, and what dried on top in spots
    CHECK(bare.zone.back().absorbance[10] > 0);
    for (const auto& s : bare.zone) CHECK(s.fill == 0);  // the water is gone
    // Over a film it is a layer of its own, of the film's index.
    auto seal = coat_step("nitrocellulose-lacquer", 2);
    seal.method = Method::spray;
    const auto over = stained("hard-maple", {seal, flood});
    REQUIRE(over.coats.size() > stained("hard-maple", {seal}).coats.size());
    CHECK(over.coats.back().thickness_um > 0);
    CHECK(over.coats.back().thickness_um < 20);
    CHECK(over.coats.back().n == over.coats.front().n);
}

TEST_CASE("a bleach takes color and adds none; iron adds some where there is tannin") {
    const auto treated = [](const std::string& wood, const std::string& id) {
        return stained(wood, {step_of({{id, schedule::Amount::parts, 1}}, 1, Method::wipe)});
    };
    const auto bleached = treated("white-oak", "two-part-bleach");
    REQUIRE_FALSE(bleached.zone.empty());
    double keeps = 1;
    for (const auto& s : bleached.zone) {
        keeps = std::min(keeps, s.keeps);
        for (const double a : s.absorbance) CHECK(a == 0);
    }
    CHECK(keeps < 1);
    CHECK(bleached.zone.size() == 2);  // what soaked in, and what it takes; no color of its own
    double black = 0;
    for (const auto& s : treated("white-oak", "iron-solution").zone) black += s.absorbance[35];
    CHECK(black > 0.1);
}
