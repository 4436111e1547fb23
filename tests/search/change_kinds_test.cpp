// How a change alters a step: strength is concentration, a touch is a share of the whole, a film is whole micrometres.

#include "../../src/search/change_kinds.hpp"

#include <catch2/catch.hpp>

#include <cmath>

#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/mixture.hpp"
#include "search/small_space.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::test;
using schedule::Amount;
using schedule::Part;

namespace {

const material::Materials& maple_shelf() {
    static const auto materials = materials_for("hard-maple");
    return materials;
}

schedule::Step mixed(std::vector<Part> mix) {
    schedule::Step s;
    s.mix = std::move(mix);
    return s;
}

// Dye in a litre of the mix's liquid, g: a powder takes room of its own, a ready dye's does not count.
double dye_g_per_l(const schedule::Step& step) {
    double sum = 0, liquid_ml = 0;
    for (const auto& p : schedule::mix(step, maple_shelf()).powders) sum += p.g_per_l;
    for (const auto& p : schedule::amounts(step, maple_shelf(), 1000)) liquid_ml += p.powder ? 0 : p.ml;
    return sum * 1000 / liquid_ml;
}

std::string parts_told(const std::optional<schedule::Step>& step) {
    if (!step) return "none";
    std::string out;
    for (const auto& p : step->mix)
        out += (out.empty() ? "" : " + ") + p.use + " " + std::to_string(std::lround(p.value * 1000)) + "/1000";
    return out;
}

}  // namespace

TEST_CASE("a strength is the concentration times so much, whatever units the mix is said in") {
    const std::vector<schedule::Step> mixes = {
        mixed({{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 19}}),
        mixed({{"honey-dye", Amount::parts, 3}, {"russet-dye", Amount::parts, 1}, {"water", Amount::parts, 36}}),
        mixed({{"honey-dye", Amount::ml, 20}, {"water", Amount::ml, 180}}),
        mixed({{"honey-dye", Amount::drops, 40}, {"water", Amount::ml, 60}}),
        mixed({{"solvent-red-24", Amount::g_per_l, 5}, {"alcohol", Amount::parts, 1}}),
    };
    double worst = 0;
    for (const auto& step : mixes)
        for (const double factor : {0.25, 0.5, 0.78, 1.0, 1.3, 2.0, 4.0}) {
            const auto changed = search::at_strength(step, maple_shelf(), factor);
            INFO(step.mix[0].use << " at " << factor);
            REQUIRE(changed);
            worst = worst_of(worst, std::abs(dye_g_per_l(*changed) / (factor * dye_g_per_l(step)) - 1));
        }
    CHECK(worst < 5e-3);  // three significant digits of what is measured out
}

TEST_CASE("a strength that leaves no liquid is the dye itself, one beyond is none") {
    const auto thin = mixed({{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 3}});
    CHECK(parts_told(search::at_strength(thin, maple_shelf(), 2)) == "honey-dye 1000/1000 + water 1000/1000");
    CHECK(parts_told(search::at_strength(thin, maple_shelf(), 0.5)) == "honey-dye 1000/1000 + water 7000/1000");
    const auto neat = search::at_strength(thin, maple_shelf(), 4);
    CHECK(parts_told(neat) == "honey-dye 1000/1000");
    CHECK(neat->mix[0].amount == Amount::parts);
    CHECK_FALSE(search::at_strength(thin, maple_shelf(), 4.1));
    // A ready dye alone is thinned with its own liquid; stronger it cannot be.
    CHECK(parts_told(search::at_strength(mixed({{"honey-dye", Amount::parts, 1}}), maple_shelf(), 0.25)) ==
          "honey-dye 1000/1000 + water 3000/1000");
    CHECK_FALSE(search::at_strength(mixed({{"honey-dye", Amount::parts, 1}}), maple_shelf(), 1.5));
}

TEST_CASE("percentages need a rest that is left, and a rest is no amount to multiply") {
    const auto tinted = [](double percent) {
        return mixed({{"waterborne-acrylic", Amount::rest, 1}, {"solvent-red-24", Amount::percent_weight, percent}});
    };
    const auto twice = search::at_strength(tinted(0.4), maple_shelf(), 2);
    REQUIRE(twice);
    CHECK(twice->mix[1].value == 0.8);
    CHECK(twice->mix[0].value == 1);
    CHECK_FALSE(search::at_strength(tinted(30), maple_shelf(), 4));
    CHECK(search::at_strength(tinted(30), maple_shelf(), 3.3));
    CHECK_FALSE(search::at_strength(
        mixed({{"water", Amount::percent_weight, 99}, {"solvent-red-24", Amount::percent_weight, 1}}), maple_shelf(),
        2));
}

TEST_CASE("a touch of a ready dye is that share of the new whole; of a powder it is grams a litre") {
    const auto thin = mixed({{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 9}});
    for (const double share : {0.01, 0.1, 0.25}) {
        const auto touched = search::with_touch(thin, maple_shelf(), "russet-dye", share);
        REQUIRE(touched);
        double whole = 0;
        for (const auto& p : touched->mix) whole += p.value;
        CHECK_THAT(touched->mix.back().value / whole, Near(share, 0.05 * share));  // two significant digits
        CHECK(touched->mix.back().amount == Amount::parts);
    }
    const auto drops = search::with_touch(mixed({{"honey-dye", Amount::drops, 40}, {"water", Amount::ml, 18}}),
                                          maple_shelf(), "russet-dye", 0.5);
    CHECK(drops->mix.back().amount == Amount::ml);
    CHECK(drops->mix.back().value == 20);  // 40 drops are 2 mL
    const auto powder = search::with_touch(thin, maple_shelf(), "solvent-red-24", 0.1234);
    CHECK(powder->mix.back().amount == Amount::g_per_l);
    CHECK(powder->mix.back().value == 0.12);
    CHECK_FALSE(search::with_touch(mixed({{"solvent-red-24", Amount::g_per_l, 5}, {"alcohol", Amount::parts, 1}}),
                                   maple_shelf(), "russet-dye", 0.1));
}

TEST_CASE("a film is so much of the wet one in whole micrometres, said in one way alone, within what can be laid") {
    auto step = mixed({{"waterborne-acrylic", Amount::parts, 1}});
    step.coverage_m2_per_l = 10;  // 100 um
    const auto heavier = search::at_film(step, maple_shelf(), 1.234);
    CHECK(heavier.wet_um == 123);
    CHECK_FALSE((heavier.coverage_m2_per_l || heavier.wet_g_per_m2));
    CHECK(search::at_film(step, maple_shelf(), 6).wet_um == 500);
    CHECK(search::at_film(step, maple_shelf(), 0.001).wet_um == 1);
}

TEST_CASE("what a step holds decides what may be changed in it") {
    const auto& materials = maple_shelf();
    const auto dye = mixed({{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 9}});
    auto oil = mixed({{"boiled-linseed", Amount::parts, 1}});
    const auto shellac = mixed({{"orange-shellac", Amount::parts, 1}}), acrylic = mixed({{"waterborne-acrylic"}});
    CHECK((search::has_colorant(dye, materials) && !search::has_binder(dye, materials) &&
           !search::takes_cut(dye, materials)));
    CHECK((search::takes_cut(shellac, materials) && search::has_binder(shellac, materials)));
    CHECK_FALSE((search::takes_cut(acrylic, materials) || search::has_colorant(acrylic, materials)));
    CHECK(search::wiped_oil(oil, materials));
    oil.method = material::Method::brush;
    CHECK_FALSE(search::wiped_oil(oil, materials));
    CHECK_FALSE(search::wiped_oil(dye, materials));
    CHECK((search::is_colorant("honey-dye", materials) && search::is_colorant("solvent-red-24", materials)));
    CHECK_FALSE(search::is_colorant("water", materials));
}

TEST_CASE("rounding keeps so many significant digits, of any size and sign") {
    CHECK(search::rounded(0, 3) == 0);
    CHECK(search::rounded(1234.5, 3) == 1230);
    CHECK(search::rounded(0.0012345, 3) == Approx(0.00123).epsilon(identity));
    CHECK(search::rounded(-98.76, 2) == -99);
    CHECK(search::rounded(9.996, 3) == 10);
    CHECK(std::isnan(search::rounded(NAN, 3)));
    for (double v = 1e-6; v < 1e6; v *= 3.7) CHECK(std::abs(search::rounded(v, 3) / v - 1) <= 0.00501);
}

TEST_CASE("percentages that fill the whole leave no room for the rest") {
    const auto tinted =
        mixed({{"waterborne-acrylic", Amount::rest, 1}, {"solvent-red-24", Amount::percent_weight, 50}});
    CHECK_FALSE(search::at_strength(tinted, maple_shelf(), 2));
    CHECK(search::at_strength(tinted, maple_shelf(), 1.99));
}
