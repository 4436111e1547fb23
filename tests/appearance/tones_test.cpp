#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "appearance/finishes.hpp"
#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/optics/kubelka_munk.hpp"
#include "schedule/small_materials.hpp"
#include "support/sanitized.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using optics::Geometry;

namespace {

double unit(std::mt19937_64& random) { return static_cast<double>(random() >> 11) * 0x1p-53; }

double difference(const color::Xyz& a, const color::Xyz& b, const color::Xyz& white) {
    return color::delta_e_00(color::to_lab(a, white), color::to_lab(b, white));
}

// Which spot of which board, as a failing check names it.
std::string spot_of(const std::string& wood, const schedule::Finish& finish, std::size_t stage, double shade,
                    double uptake) {
    return wood + ", " + finish.name + ", stage " + std::to_string(stage) + ", shade " + std::to_string(shade) +
           ", uptake " + std::to_string(uptake);
}

}  // namespace

TEST_CASE("a shade multiplies the body's K/S and leaves the surface alone") {
    const auto& wood = wood_of("cherry");
    const auto darker = shaded(wood, 0.7);
    CHECK(darker.surface_k1.value == wood.surface_k1.value);
    const auto before = material::body_reflectance(wood), after = material::body_reflectance(darker);
    for (std::size_t i = 0; i < before.size(); i += 10)
        CHECK_THAT(optics::k_over_s(after[i]) / optics::k_over_s(before[i]), Near(std::exp(0.7), closed_form));
    // There and back.
    const auto back = shaded(darker, -0.7);
    for (std::size_t i = 0; i < before.size(); i += 10)
        CHECK_THAT(back.reflectance.values[i], Near(wood.reflectance.values[i], closed_form));
    CHECK(shaded(wood, 0).reflectance.values == wood.reflectance.values);
    CHECK_THROWS_AS(shaded(wood, 9), std::invalid_argument);
    CHECK_THROWS_AS(shaded(wood, std::nan("")), std::invalid_argument);
}

TEST_CASE("centred wood reads on the mean over its spots as the wood was read") {
    std::mt19937_64 random(9);
    std::vector<float> shade;
    for (int i = 0; i < 400; ++i) shade.push_back(static_cast<float>(-1.2 + 2.8 * unit(random) * unit(random)));
    for (const std::string id : {"pine", "walnut", "teak"}) {
        const auto& wood = wood_of(id);
        const auto spots = centred(wood, shade);
        double worst = 0;
        for (std::size_t i = 0; i < spectral::grid_size; i += 5) {
            double sum = 0;
            for (const float s : shade) sum += shaded(spots, static_cast<double>(s)).reflectance.values[i];
            worst = worst_of(worst, std::abs(sum / static_cast<double>(shade.size()) - wood.reflectance.values[i]));
        }
        INFO(id);
        CHECK(worst < 1e-4);  // dealt onto 128 points
    }
    const std::vector<float> even(10, 0.3F);
    CHECK_THAT(shaded(centred(wood_of("pine"), even), double{0.3F}).reflectance.values[30],
               Near(wood_of("pine").reflectance.values[30], closed_form));
    CHECK_THROWS_AS(centred(wood_of("pine"), {}), std::invalid_argument);
}

TEST_CASE("on bare wood u times as much goes in, √u times as deep, into pores filled to the same share") {
    const double u = 2.25;
    for (const std::string id : {"oil", "stock"}) {
        schedule::Finish steps{"test", {coat_step(id, 1)}};
        steps.steps[0].method = material::Method::wipe;
        const Board mean = boards(small_materials(), "wood", steps).back();
        REQUIRE(mean.zone.size() == 1);
        const Board local = at_uptake(mean, u);
        CHECK_THAT(local.zone[0].depth_um, Near(mean.zone[0].depth_um * 1.5, closed_form));
        CHECK_THAT(local.zone[0].absorbance[40], Near(mean.zone[0].absorbance[40] * u, closed_form));
        CHECK_THAT(local.zone[0].fill, Near(mean.zone[0].fill, identity));
        CHECK(local.film_um == mean.film_um);
        CHECK_THROWS_AS(at_uptake(mean, -0.1), std::invalid_argument);
    }
}

TEST_CASE("a wash coat evens the uptake of dye: a spot that takes more took more of the seal") {
    const auto ratio = [](const schedule::Finish& finish) {
        const Board mean = boards(whole_library(), "pine", finish).back();
        return at_uptake(mean, 2).account.dye.in / mean.account.dye.in;
    };
    const double plain = ratio({"dye", {dye_step("umber-dye", 9)}});
    const double washed = ratio({"washed", {wash_step(), dye_step("umber-dye", 9)}});
    CHECK_THAT(plain, Near(2, closed_form));
    CHECK(washed < 1.6);
    CHECK(washed > 1);
}

TEST_CASE("boards and stages are the same boards") {
    const schedule::Finish finish = finishes()[6];
    const auto all = boards(whole_library(), "pine", finish);
    const auto seen = stages(whole_library(), "pine", finish, Geometry::g45_0, two_flux_solver());
    REQUIRE(all.size() == seen.stages.size());
    for (std::size_t i = 0; i < all.size(); ++i)
        CHECK(render(all[i], wood_of("pine"), Geometry::g45_0, two_flux_solver()).total() ==
              seen.stages[i].reading.total());
}

TEST_CASE("table lookups are within ΔE00 0.1 of direct solving, over woods, finishes, stages, lights and geometries") {
    // Shades and uptakes at random over the whole default range: pores at shade 3 are nearly black.
    const int points = sanitized() ? 3 : 25;
    std::mt19937_64 random(5);
    const auto solver = two_flux_solver();
    const color::Weights lights[] = {color::make_weights(light("D65"), observer("2deg")),
                                     color::make_weights(light("A"), observer("10deg"))};
    double worst = 0, worst_spectral = 0, sum = 0;
    int count = 0;
    std::string where, where_spectral;
    for (const std::string wood : {"hard-maple", "pine", "ash", "walnut", "mahogany", "teak"})
        for (const auto& finish : finishes()) {
            if (sanitized() && wood != "ash" && wood != "walnut") continue;
            const auto all = boards(whole_library(), wood, finish);
            for (const std::size_t stage : {all.size() - 1, all.size() > 2 ? std::size_t{1} : all.size() - 1}) {
                const auto geometry = stage == 1 ? Geometry::d8_included : Geometry::g45_0;
                const ToneSpectra spectra(all[stage], wood_of(wood), geometry, solver);
                const ToneTable tables[] = {{spectra, lights[0]}, {spectra, lights[1]}};
                for (int p = 0; p < points; ++p) {
                    const double shade = -2 + 5 * unit(random), uptake = 4 * unit(random) * unit(random);
                    const auto direct =
                        render(at_uptake(all[stage], uptake), shaded(wood_of(wood), shade), geometry, solver).total();
                    const std::string here = spot_of(wood, finish, stage, shade, uptake);
                    const auto between = spectra.at(shade, uptake).total();
                    for (std::size_t i = 0; i < direct.size(); ++i)
                        if (worse(std::abs(between[i] - direct[i]), worst_spectral)) {
                            worst_spectral = std::abs(between[i] - direct[i]);
                            where_spectral = here + ", " + std::to_string(spectral::grid_nm(i)) + " nm";
                        }
                    for (std::size_t l = 0; l < 2; ++l) {
                        const double off = difference(tables[l].reading(shade, uptake), color::xyz(direct, lights[l]),
                                                      lights[l].white);
                        sum += off;
                        ++count;
                        if (worse(off, worst)) {
                            worst = off;
                            where = here;
                        }
                    }
                }
            }
        }
    CAPTURE(where, worst, where_spectral, worst_spectral, sum / count);
    CHECK(worst < 0.1);
    CHECK(worst_spectral < 1e-4);
    CHECK(worst > 0);
}

// A damp board over a seal has an edge where its liquid no longer fills the pores (up to 0.27 off when it was
// interpolated across).
TEST_CASE("damp boards over seals and oils, and wiped pigments, are within ΔE00 0.1 of direct solving too") {
    const int points = sanitized() ? 2 : 20;
    std::mt19937_64 random(6);
    const auto solver = two_flux_solver();
    const auto weights = color::make_weights(light("D65"), observer("2deg"));
    std::vector<schedule::Finish> finishes;
    for (const double cut_lb : {0.25, 0.5, 1.0, 2.0}) {
        auto seal = step_of({{"super-blonde-shellac", schedule::Amount::parts, 1}}, 1, material::Method::brush);
        seal.cut_lb = cut_lb;
        finishes.push_back({"dye over " + std::to_string(cut_lb) + " lb", {seal, dye_step("umber-dye", 9)}});
    }
    const auto oil = step_of({{"boiled-linseed", schedule::Amount::parts, 1}}, 1, material::Method::wipe);
    finishes.push_back({"dye over oil", {oil, dye_step("umber-dye", 9)}});
    auto stain = step_of(
        {{"red-iron-oxide", schedule::Amount::percent_weight, 10}, {"oil-varnish-blend", schedule::Amount::rest, 0}}, 1,
        material::Method::wipe);
    stain.wet_g_per_m2 = 70;
    finishes.push_back({"stain", {stain, coat_step("waterborne-acrylic", 2)}});
    double worst = 0;
    std::string where;
    for (const std::string wood : {"teak", "mahogany", "hard-maple", "ash", "pine"})
        for (const auto& finish : finishes) {
            if (sanitized() && wood != "ash" && wood != "pine") continue;
            const auto all = boards(whole_library(), wood, finish);
            for (std::size_t stage = 1; stage < all.size(); ++stage) {
                const ToneSpectra spectra(all[stage], wood_of(wood), Geometry::g45_0, solver);
                const ToneTable table(spectra, weights);
                for (int p = 0; p < points; ++p) {
                    const double shade = -2 + 5 * unit(random), uptake = 4 * unit(random) * unit(random);
                    const double pore = spectra.tells_pores() ? p % 2 : all[stage].pore;
                    const auto direct =
                        render(at_spot(all[stage], uptake, pore), shaded(wood_of(wood), shade), Geometry::g45_0, solver)
                            .total();
                    const double off =
                        difference(table.reading(shade, uptake, pore), color::xyz(direct, weights), weights.white);
                    if (!(off <= worst)) where = spot_of(wood, finish, stage, shade, uptake);
                    worst = worst_of(worst, off);
                }
            }
        }
    CAPTURE(where, worst);
    CHECK(worst < 0.1);
}

// One just noticeable difference: what follows is seen as the same board.
TEST_CASE("a few spots at every fourth wavelength are within ΔE00 1 of direct solving over the default range") {
    const int points = sanitized() ? 3 : 20;
    std::mt19937_64 random(8);
    const auto solver = two_flux_solver();
    auto coarse = solver;
    coarse.every = 4;
    const auto weights = color::make_weights(light("D65"), observer("2deg"));
    auto all_finishes = finishes();
    auto seal = step_of({{"super-blonde-shellac", schedule::Amount::parts, 1}}, 1, material::Method::brush);
    seal.cut_lb = 0.5;
    all_finishes.push_back({"dye over half a pound", {seal, dye_step("umber-dye", 9)}});
    double worst = 0, sum = 0;
    int count = 0;
    std::string where;
    for (const std::string wood : {"hard-maple", "pine", "ash", "walnut", "mahogany", "teak"})
        for (const auto& finish : all_finishes) {
            if (sanitized() && wood != "ash" && wood != "walnut") continue;
            const auto all = boards(whole_library(), wood, finish);
            for (std::size_t stage = 0; stage < all.size(); ++stage) {
                const ToneSpectra spectra(all[stage], wood_of(wood), Geometry::g45_0, coarse, {}, ToneSpots::few);
                const ToneTable table(spectra, weights);
                for (int p = 0; p < points; ++p) {
                    const double shade = -2 + 5 * unit(random), uptake = 4 * unit(random) * unit(random);
                    const auto direct =
                        render(at_uptake(all[stage], uptake), shaded(wood_of(wood), shade), Geometry::g45_0, solver);
                    const double off =
                        difference(table.reading(shade, uptake), color::xyz(direct.total(), weights), weights.white);
                    sum += off;
                    ++count;
                    if (!(off <= worst)) where = spot_of(wood, finish, stage, shade, uptake);
                    worst = worst_of(worst, off);
                }
            }
        }
    CAPTURE(where, worst, sum / count);
    CHECK(worst < 1);
    CHECK(worst > 0);
}

TEST_CASE("the mean of a board is the mean of its spots") {
    const auto all = boards(whole_library(), "ash", finishes()[4]);
    const ToneSpectra spectra(all.back(), wood_of("ash"), Geometry::g45_0, two_flux_solver());
    const auto weights = color::make_weights(light("D65"), observer("2deg"));
    const ToneTable table(spectra, weights);
    std::mt19937_64 random(7);
    std::vector<float> shade, uptake;
    spectral::Spectrum sum;
    for (int i = 0; i < 200; ++i) {
        shade.push_back(static_cast<float>(-1 + 3 * unit(random)));
        uptake.push_back(static_cast<float>(2 * unit(random)));
        const auto one = spectra.at(shade.back(), uptake.back()).total();
        for (std::size_t k = 0; k < sum.size(); ++k) sum[k] += one[k] / 200;
    }
    const auto mean = spectra.mean(shade, uptake).total();
    for (std::size_t k = 0; k < sum.size(); k += 8)
        CHECK_THAT(mean[k], Near(sum[k], 2e-5));  // dealt onto 257 × 129 points
    CHECK(difference(table.mean(shade, uptake), color::xyz(sum, weights), weights.white) < 0.005);
    CHECK_THROWS_AS(spectra.mean({}, {}), std::invalid_argument);
    CHECK_THROWS_AS(table.mean(shade, std::span<const float>(uptake).first(3)), std::invalid_argument);
}

TEST_CASE("beyond its range a table holds the nearest spot, and bad ranges are refused") {
    const auto& wood = wood_of("birch");
    const ToneSpectra spectra({}, wood, Geometry::g45_0, two_flux_solver(), {-1, 1, 2});
    CHECK(spectra.uptakes().size() == 1);  // nothing soaked in: uptake is idle
    CHECK(spectra.at(-7, 1).total() == spectra.at(-1, 1).total());
    const ToneTable table(spectra, color::make_weights(light("D65"), observer("2deg")));
    CHECK(table.reading(5, 0.5) == table.reading(1, 9));
    CHECK_THROWS_AS(ToneSpectra({}, wood, Geometry::g45_0, two_flux_solver(), {1, 1, 2}), std::invalid_argument);
    CHECK_THROWS_AS(ToneSpectra({}, wood, Geometry::g45_0, two_flux_solver(), {-1, 1, 0}), std::invalid_argument);
    const std::vector<float> shade{-0.5F, 2}, uptake{0.2F, 3};
    const auto range = ToneRange::covering(shade, uptake);
    CHECK(range.shade_low < -0.5);
    CHECK(range.shade_high > 2);
    CHECK(range.uptake_high > 3);
}

TEST_CASE("a map without uptakes is one of the usual uptake, in spectra and in tables") {
    const std::vector<float> shade = {-0.7F, 0, 0.4F, 1.1F}, ones(4, 1.0F);
    const auto board = boards(whole_library(), "pine", {"", {dye_step("raven-dye", 3)}}).back();
    const ToneSpectra spectra(board, wood_of("pine"), Geometry::g45_0, two_flux_solver());
    const auto a = spectra.mean(shade, {}).total(), b = spectra.mean(shade, ones).total();
    CHECK(a == b);
    std::vector<float> more(4, 1.3F);
    CHECK(std::abs(spectra.mean(shade, more).total()[35] - a[35]) > 0.003);
    const ToneTable table(spectra, color::make_weights(light("D65"), observer("2deg")));
    CHECK(table.mean(shade, {}).y == table.mean(shade, ones).y);
}

TEST_CASE("a range covers 0, 1 and both maps with a margin of its span, and no wood that there is not") {
    const auto range = [](std::vector<float> shade, std::vector<float> uptake, double margin = 0.02) {
        return ToneRange::covering(shade, uptake, margin);
    };
    const auto usual = range({-1, 2}, {0.5F, 3});
    CHECK_THAT(usual.shade_low, Near(-1 - 0.02 * 3, identity));
    CHECK_THAT(usual.shade_high, Near(2 + 0.02 * 3, identity));
    CHECK_THAT(usual.uptake_high, Near(3 * 1.02, identity));
    CHECK(range({1, 2}, {}).shade_low < 0);
    CHECK(range({-2, -1}, {}).shade_high > 0);
    CHECK_THAT(range({}, {0.2F}).uptake_high, Near(1.02, identity));
    const auto wild = range({-7, 7}, {50});
    CHECK(wild.shade_low == -4);
    CHECK(wild.shade_high == 5);
    CHECK(wild.uptake_high == 9);
    CHECK_THAT(range({}, {}, 0.5).shade_high, Near(0.05, identity));  // of a span of a tenth at least
}

TEST_CASE("at the ends of its range a table holds what was solved there, to single precision") {
    const auto board = boards(whole_library(), "pine", {"", {dye_step("raven-dye", 3)}}).back();
    const ToneSpectra spectra(board, wood_of("pine"), Geometry::g45_0, two_flux_solver());
    const auto w = color::make_weights(light("D65"), observer("2deg"));
    const ToneTable table(spectra, w);
    const auto& r = spectra.range();
    for (const double shade : {r.shade_low, r.shade_high})
        for (const double uptake : {0.0, r.uptake_high}) {
            const auto due = color::xyz(spectra.at(shade, uptake).total(), w), got = table.reading(shade, uptake);
            INFO(shade << ", " << uptake);
            CHECK(std::abs(got.y - due.y) < 2e-4);
            CHECK(std::abs(got.x - due.x) < 2e-4);
            CHECK(std::abs(got.z - due.z) < 2e-4);
        }
}
