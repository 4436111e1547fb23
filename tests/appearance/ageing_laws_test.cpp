// What is not known of ageing, figure by figure: which numbers move it, how far, and what a result then rests on.

#include "foretone/appearance/ageing_laws.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>

#include "appearance/finishes.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using material::Figure;
using material::Mark;

namespace {

material::Materials aged_few() {
    material::Materials m;
    for (const char* id : {"cherry", "oil-varnish", "shellac", "acid-orange-7", "water"})
        if (whole_library().count(id)) m[id] = whole_library().at(id);
    return m;
}

std::vector<Figure*> wood_figures(AgeingLaws& l) {
    return {&l.wood.brown, &l.wood.yellow, &l.wood.bleached, &l.wood.fast_wh, &l.wood.dark_yellow};
}

// Laws and materials in which every figure of age is as well known as can be.
struct Known {
    material::Materials materials = aged_few();
    AgeingLaws laws;
    Known() {
        auto& dye = std::get<material::Dye>(materials.at("acid-orange-7").data);
        dye.lightfastness = Figure{3, 1, {Mark::measured, "a test"}};
        laws = ageing_laws(materials, "cherry");
        for (auto* f : wood_figures(laws)) f->from.mark = Mark::measured;
        laws.wood.bleach_wh.from.mark = Mark::measured;
        for (auto& [kind, law] : laws.films) law.dark_per_mm.from.mark = Mark::measured;
    }
    Mark weakest() const { return appearance::weakest(laws, materials); }
};

std::vector<std::string> names_of(const std::vector<AgeingCoordinate>& all) {
    std::vector<std::string> out;
    for (const auto& c : all) out.push_back(c.name);
    return out;
}

bool named(const std::vector<AgeingCoordinate>& all, const std::string& name) {
    const auto names = names_of(all);
    return std::find(names.begin(), names.end(), name) != names.end();
}

const AgeingCoordinate& coordinate(const std::vector<AgeingCoordinate>& all, const std::string& name) {
    for (const auto& c : all)
        if (c.name == name) return c;
    FAIL("no coordinate " << name);
    return all.front();
}

}  // namespace

TEST_CASE("a result of age rests on the weakest figure of wood, films and dyes, whichever it is") {
    CHECK(Known().weakest() == Mark::measured);
    for (std::size_t i = 0; i < 5; ++i) {
        Known k;
        wood_figures(k.laws)[i]->from.mark = Mark::memory;
        CHECK(k.weakest() == Mark::memory);
    }
    Known film;
    film.laws.films.begin()->second.dark_per_mm.from.mark = Mark::practice;
    CHECK(film.weakest() == Mark::practice);
    Known dye;
    std::get<material::Dye>(dye.materials.at("acid-orange-7").data).lightfastness->from.mark = Mark::practice;
    CHECK(dye.weakest() == Mark::practice);
    Known none;
    std::get<material::Dye>(none.materials.at("acid-orange-7").data).lightfastness.reset();  // then the usual one
    CHECK(none.weakest() == material::weaker(Mark::measured, material::usual_lightfastness().from.mark));
}

TEST_CASE("a figure of age that is sure moves nothing; one that is not has a number of its own") {
    const std::vector<material::AgeSpan> window = {{material::Stands::window, 365}},
                                         now = {{material::Stands::window, 0}};
    const Known k;
    const auto all = ageing_coordinates(k.laws, k.materials, window);
    auto names = names_of(all);
    std::sort(names.begin(), names.end());
    CHECK(std::adjacent_find(names.begin(), names.end()) == names.end());
    const std::vector<std::pair<const char*, Figure material::WoodAgeing::*>> of_wood = {
        {"brown", &material::WoodAgeing::brown},      {"yellow", &material::WoodAgeing::yellow},
        {"fast", &material::WoodAgeing::fast_wh},     {"bleached", &material::WoodAgeing::bleached},
        {"bleach", &material::WoodAgeing::bleach_wh}, {"dark", &material::WoodAgeing::dark_yellow}};
    for (const auto& [key, figure] : of_wood) {
        const std::string name = std::string("ageing/wood/") + key;
        INFO(name);
        for (const double sd : {0.0, 0.1}) {
            auto laws = k.laws;
            (laws.wood.*figure).sd = sd * (laws.wood.*figure).value;
            CHECK(named(ageing_coordinates(laws, k.materials, window), name) == ((laws.wood.*figure).sd > 0));
        }
    }
    CHECK(named(all, "ageing/light"));
    CHECK_FALSE(named(ageing_coordinates(k.laws, k.materials, now), "ageing/light"));  // no time goes by
    CHECK_FALSE(named(ageing_coordinates(k.laws, k.materials, {}), "ageing/light"));
    CHECK(named(all, "ageing/acid-orange-7"));
    Known sure;
    std::get<material::Dye>(sure.materials.at("acid-orange-7").data).lightfastness->sd = 0;
    CHECK_FALSE(named(ageing_coordinates(sure.laws, sure.materials, window), "ageing/acid-orange-7"));
    for (const auto& c : all) CHECK(c.of_place == (c.name == "ageing/light"));
}

TEST_CASE("numbers of age move amounts and doses by factors, shares within their range, there and back") {
    const Known k;
    const std::vector<material::AgeSpan> window = {{material::Stands::window, 365}};
    const auto all = ageing_coordinates(k.laws, k.materials, window);
    const auto moved = [&](const std::string& name, double z) {
        auto l = k.laws;
        coordinate(all, name).move(l, z);
        return l;
    };
    for (const auto& c : all) {
        INFO(c.name);
        auto still = k.laws;
        c.move(still, 0);
        CHECK(still.light == 1);
        CHECK(still.wood.brown.value == k.laws.wood.brown.value);
        CHECK(still.lightfastness == k.laws.lightfastness);
    }
    // Brown takes yellow along, soon takes late along: factors, the same up and down.
    for (const double z : {0.5, 1.0, 2.0}) {
        const auto up = moved("ageing/wood/brown", z), down = moved("ageing/wood/brown", -z);
        const double by = up.wood.brown.value / k.laws.wood.brown.value;
        // An amount v ± s moves as ln v ± s/v.
        CHECK(std::log(by) == Approx(z * k.laws.wood.brown.sd / k.laws.wood.brown.value).epsilon(1e-12));
        CHECK(by * down.wood.brown.value / k.laws.wood.brown.value == Approx(1).epsilon(1e-12));
        CHECK(up.wood.yellow.value > k.laws.wood.yellow.value);
        const auto soon = moved("ageing/wood/fast", z);
        CHECK(soon.wood.fast_wh.value > k.laws.wood.fast_wh.value);
        CHECK(soon.wood.slow_wh.value > k.laws.wood.slow_wh.value);
        CHECK(moved("ageing/wood/yellow", z).wood.brown.value == k.laws.wood.brown.value);
        CHECK(std::log(moved("ageing/light", z).light) ==
              Approx(z * material::exposure(material::Stands::window).dose_ln_sd).epsilon(1e-12));
        CHECK(moved("ageing/light", z).light * moved("ageing/light", -z).light == Approx(1).epsilon(1e-12));
        CHECK(moved("ageing/wood/dark", z).wood.dark_yellow.value > k.laws.wood.dark_yellow.value);
    }
    CHECK(moved("ageing/wood/bleached", 50).wood.bleached.value <= 0.95);
    CHECK(moved("ageing/wood/bleached", -50).wood.bleached.value >= 0);
    // Blue-wool classes are 1 to 8 (ISO 105-B02).
    CHECK(moved("ageing/acid-orange-7", 1).lightfastness.at("acid-orange-7") == Approx(4));
    CHECK(moved("ageing/acid-orange-7", 50).lightfastness.at("acid-orange-7") == 8);
    CHECK(moved("ageing/acid-orange-7", -50).lightfastness.at("acid-orange-7") == 1);
    for (const auto& [kind, law] : k.laws.films) {
        INFO(kind);
        const auto at = [&](const char* key, double z) {
            return moved("ageing/" + kind + "/" + key, z).films.at(kind);
        };
        if (law.dark_per_mm.value > 0 && law.dark_per_mm.sd > 0)
            CHECK(at("dark", 1).dark_per_mm.value > law.dark_per_mm.value);
        CHECK(at("uv", 50).uv_absorbed.value <= 0.99);
        CHECK(at("uv", -50).uv_absorbed.value >= 0);
        CHECK(at("own", 50).own_bleached.value <= 1);
        CHECK(at("light", 1).dark_per_mm.value == law.dark_per_mm.value);
    }
}
