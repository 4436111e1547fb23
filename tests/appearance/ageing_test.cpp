/// A finished board in time: limits, sums, and what finishers know of it.

#include "foretone/appearance/ageing.hpp"

#include <catch2/catch.hpp>

#include "appearance/finishes.hpp"
#include "foretone/appearance/spread.hpp"
#include "foretone/material/optics_of.hpp"
#include "foretone/search/finished.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::appearance;
using namespace foretone::test;
using material::AgeSpan;
using material::days_a_year;
using material::Stands;

namespace {

const color::Weights& d65_10() {
    static const auto w = color::make_weights(light("D65"), observer("10deg"));
    return w;
}

spectral::Spectrum reading(const AgedFinish& f) {
    return search::finished({f.materials, f.wood, optics::Geometry::d8_included, two_flux_solver()}, f.finish);
}

AgedFinish old(const std::string& wood, const schedule::Finish& finish, const std::vector<AgeSpan>& times,
               Ages what = Ages::all) {
    return aged(whole_library(), wood, finish, times, what);
}

color::Lab lab_seen(const AgedFinish& f) { return color::to_lab(color::xyz(reading(f), d65_10()), d65_10().white); }

color::Lab after_years(const std::string& wood, const schedule::Finish& finish, double years, Stands place,
                       Ages what = Ages::all) {
    return lab_seen(old(wood, finish, {{place, years * days_a_year}}, what));
}

const schedule::Finish bare{"bare", {}};
const schedule::Finish waterborne{"waterborne", {coat_step("waterborne-polyurethane", 3)}};

schedule::Finish linseed_oiled() {
    return {"linseed", {step_of({{"boiled-linseed", schedule::Amount::parts, 1}}, 2, material::Method::wipe)}};
}

}  // namespace

TEST_CASE("no time at all is the fresh board, to the bit") {
    for (const auto& finish : finishes()) {
        INFO(finish.name);
        const search::Setting setting{whole_library(), "cherry", optics::Geometry::d8_included, two_flux_solver()};
        const auto fresh = search::finished(setting, finish);
        CHECK(reading(old("cherry", finish, {})).values == fresh.values);
        CHECK(reading(old("cherry", finish, {{Stands::sun, 0}})).values == fresh.values);
    }
}

TEST_CASE("doses add: two years are one and one, and a history is its parts in order") {
    for (const auto& finish : finishes()) {
        INFO(finish.name);
        for (const Stands place : {Stands::dark, Stands::room, Stands::sun}) {
            const auto once = reading(old("hard-maple", finish, {{place, 2 * days_a_year}}));
            const auto twice = reading(old("hard-maple", finish, {{place, days_a_year}, {place, days_a_year}}));
            double worst = 0;
            for (std::size_t i = 0; i < once.size(); ++i) worst = worst_of(worst, std::abs(once[i] - twice[i]));
            CHECK(worst < identity);
        }
    }
}

TEST_CASE("the parts of an aged board alone move what they are of and nothing else") {
    const schedule::Finish dyed{"dyed", {dye_step("honey-dye", 9), coat_step("oil-varnish", 2)}};
    const std::vector<AgeSpan> year = {{Stands::window, days_a_year}};
    const auto wood = old("birch", dyed, year, Ages::wood);
    CHECK(wood.finish.steps[0].mix[0].use == "honey-dye");
    CHECK(wood.wood_data().reflectance.values.values != wood_of("birch").reflectance.values.values);
    const auto film = old("birch", dyed, year, Ages::film);
    CHECK(film.finish.steps[1].mix[0].use == "oil-varnish#2");
    CHECK(film.finish.steps[0].mix[0].use == "honey-dye");
    CHECK(film.wood_data().reflectance.values.values == wood_of("birch").reflectance.values.values);
    const auto dye = old("birch", dyed, year, Ages::dye);
    CHECK(dye.finish.steps[0].mix[0].use == "honey-dye#1");
    CHECK(dye.finish.steps[0].mix[1].use == "water");
    CHECK(dye.finish.steps[1].mix[0].use == "oil-varnish");
}

TEST_CASE("films shelter the wood: more coats more, a film that keeps ultraviolet back most, none wholly") {
    const auto laws = ageing_laws(whole_library(), "hard-maple");
    const auto reach = [&](const schedule::Finish& f, const material::Materials& from) {
        return shelter(from, "hard-maple", f, {}, laws).wood;
    };
    const schedule::Finish one{"one", {coat_step("oil-varnish", 1)}}, four{"four", {coat_step("oil-varnish", 4)}};
    const auto open = reach(bare, whole_library()), thin = reach(one, whole_library()),
               thick = reach(four, whole_library());
    CHECK(open.ultraviolet == 1);
    CHECK(open.violet == 1);
    CHECK(thin.ultraviolet < 1);
    CHECK(thick.ultraviolet < thin.ultraviolet);
    CHECK(thick.violet < thin.violet);
    auto kept = whole_library();
    std::get<material::Binder>(kept.at("oil-varnish").data).uv_absorbed = material::Figure{0.95, 0.02, {}};
    const auto blocked = reach(four, kept);
    CHECK(blocked.ultraviolet < 0.1 * thick.ultraviolet);
    CHECK_THAT(blocked.violet, Near(thick.violet, identity));
    const schedule::Finish garnet{"garnet", {coat_step("garnet-shellac", 3)}};
    CHECK(reach(garnet, whole_library()).violet <
          reach({"b", {coat_step("super-blonde-shellac", 3)}}, whole_library()).violet);
}

TEST_CASE("a film that keeps ultraviolet back slows the wood") {
    auto kept = whole_library();
    std::get<material::Binder>(kept.at("waterborne-polyurethane").data).uv_absorbed = material::Figure{0.95, 0.02, {}};
    const std::vector<AgeSpan> months = {{Stands::window, 60}};
    const auto lab_of = [&](const material::Materials& m, const std::vector<AgeSpan>& t) {
        return lab_seen(aged(m, "hard-maple", waterborne, t));
    };
    CHECK(color::delta_e_00(lab_of(kept, {}), lab_of(kept, months)) <
          0.75 * color::delta_e_00(lab_of(whole_library(), {}), lab_of(whole_library(), months)));
}

TEST_CASE("cherry darkens fast and then slowly, most of five years in the first") {  // common practice
    for (const Stands place : {Stands::room, Stands::window}) {
        const auto fresh = after_years("cherry", waterborne, 0, place),
                   month = after_years("cherry", waterborne, 1. / 12, place),
                   year = after_years("cherry", waterborne, 1, place),
                   five = after_years("cherry", waterborne, 5, place);
        CHECK(month.l < fresh.l);
        CHECK(year.l < month.l);
        CHECK(year.a > fresh.a + 1);
        CHECK(color::delta_e_00(fresh, year) > 0.5 * color::delta_e_00(fresh, five));
        CHECK(color::delta_e_00(fresh, month) > color::delta_e_00(fresh, year) / 12);
    }
}

TEST_CASE("walnut and mahogany grow paler, maple, birch, beech and pine darker and yellower") {  // common practice
    for (const auto& finish : {bare, waterborne})
        for (const Stands place : {Stands::window, Stands::sun})
            for (const char* wood : {"walnut", "mahogany"}) {
                INFO(wood << " " << finish.name);
                CHECK(after_years(wood, finish, 5, place).l > after_years(wood, finish, 0, place).l + 1);
            }
    for (const auto& finish : {bare, waterborne})
        for (const Stands place : {Stands::room, Stands::window})
            for (const char* wood : {"hard-maple", "birch", "beech", "pine"}) {
                INFO(wood << " " << finish.name);
                const auto fresh = after_years(wood, finish, 0, place), old5 = after_years(wood, finish, 5, place);
                CHECK(old5.l < fresh.l - 1);
                CHECK(old5.b > fresh.b + 1);
                CHECK(old5.a > fresh.a);
            }
}

TEST_CASE("linseed darkens more in the dark than any other film, and waterborne stays") {  // common practice
    const auto moved = [](const schedule::Finish& f) {
        return color::delta_e_00(after_years("hard-maple", f, 0, Stands::dark, Ages::film),
                                 after_years("hard-maple", f, 5, Stands::dark, Ages::film));
    };
    const double oil = moved(linseed_oiled()), water = moved(waterborne);
    CHECK(oil > moved({"varnish", {coat_step("oil-varnish", 2)}}));
    CHECK(oil > moved({"shellac", {coat_step("orange-shellac", 2)}}));
    CHECK(water < 0.5);
    CHECK(water < oil / 3);
    const auto dark = after_years("hard-maple", linseed_oiled(), 5, Stands::dark, Ages::film),
               lit = after_years("hard-maple", linseed_oiled(), 5, Stands::window, Ages::film);
    CHECK(dark.b > lit.b);  // light bleaches it
}

TEST_CASE("dye on a sunny sill fades, vegetable dye first, and pigment stays") {  // common practice
    const auto left = [](const std::string& dye) {
        schedule::Finish f{"dyed",
                           {step_of({{"water", schedule::Amount::parts, 1}, {dye, schedule::Amount::g_per_l, 4}}, 1,
                                    material::Method::wipe),
                            coat_step("waterborne-acrylic", 2)}};
        if (dye == "natural-yellow-3") f.steps[0].mix[0].use = "alcohol";
        const auto o = old("hard-maple", f, {{Stands::sun, days_a_year}});
        const auto& aged_dye = o.materials.at(o.finish.steps[0].mix[1].use);
        return std::get<material::Dye>(aged_dye.data).molar_absorptivity.values[20] /
               std::get<material::Dye>(whole_library().at(dye).data).molar_absorptivity.values[20];
    };
    CHECK(left("acid-orange-7") < 0.8);
    CHECK(left("natural-yellow-3") < 0.2);
    CHECK(left("natural-yellow-3") < left("acid-orange-7"));
    const schedule::Finish oxide{
        "oxide",
        {step_of({{"boiled-linseed", schedule::Amount::parts, 1}, {"red-iron-oxide", schedule::Amount::g_per_l, 50}}, 1,
                 material::Method::wipe)}};
    const auto o = old("hard-maple", oxide, {{Stands::sun, days_a_year}});
    CHECK(o.finish.steps[0].mix[1].use == "red-iron-oxide");
}

TEST_CASE("an aged board keeps energy, in both solvers") {
    for (const auto& finish : finishes())
        for (const char* wood : {"silver-fir", "walnut"}) {
            INFO(finish.name << " on " << wood);
            const auto o = old(wood, finish, {{Stands::sun, 30 * days_a_year}});
            double most = 0, least = 1;
            for (const double r : reading(o).values) most = worst_of(most, r), least = least_of(least, r);
            CHECK(most <= 1);
            CHECK(least >= 0);
        }
    const auto o = old("hard-maple", waterborne, {{Stands::window, days_a_year}});
    const auto slow =
        search::finished({o.materials, o.wood, optics::Geometry::d8_included, angular_solver(8)}, o.finish);
    double off = 0;
    for (std::size_t i = 0; i < slow.size(); ++i) off = worst_of(off, std::abs(slow[i] - reading(o)[i]));
    CHECK(off < 0.02);
}

TEST_CASE("what is not known of age widens the range, and nothing else draws it otherwise") {
    Knowledge fresh, later;
    later.after = {{Stands::window, days_a_year}};
    const auto ask = [&](const Knowledge& k) {
        return spreads({whole_library(),
                        "hard-maple",
                        {waterborne, bare},
                        optics::Geometry::d8_included,
                        two_flux_solver(),
                        {d65_10()},
                        StagesAsked::last,
                        k,
                        {},
                        {2, 0}});
    };
    const auto now = ask(fresh), then = ask(later);
    REQUIRE(then.size() == 2);
    CHECK(then[0].de00(0, 0) > now[0].de00(0, 0));
    CHECK(then[0].rests_on >= now[0].rests_on);
    bool named = false;
    for (const auto& c : then[0].contributions) named = named || c.what.starts_with("how the wood ages");
    CHECK(named);
    const auto middle = after_years("hard-maple", waterborne, 1, Stands::window);
    CHECK(color::delta_e_00(then[0].regions[0][0].mean, middle) < then[0].de00(0, 0));
    UncertainFigures figures(whole_library(), "hard-maple", {waterborne}, d65_10(), later);
    bool light = false;
    for (const auto& c : figures.coordinates())
        light = light || (c.name == "ageing/light" && c.origin == Origin::boards);
    CHECK(light);
}

TEST_CASE("for a search all that lies ready ages alike, whether a recipe uses it or not; other woods do not") {
    const schedule::Finish like{"like", {dye_step("honey-dye", 15), coat_step("oil-varnish", 2)}};
    const std::vector<AgeSpan> years = {{Stands::window, 5 * days_a_year}};
    const auto& fresh = whole_library();
    const auto old_ones = aged_alike(fresh, "cherry", like, years);
    CHECK(old_ones.size() == fresh.size());
    const auto reflects = [](const material::Materials& m, const std::string& id) {
        return std::get<material::Wood>(m.at(id).data).reflectance.values;
    };
    CHECK(reflects(old_ones, "ash") == reflects(fresh, "ash"));
    CHECK(reflects(old_ones, "cherry") != reflects(fresh, "cherry"));
    CHECK(reflects(old_ones, "cherry") == reflects(old("cherry", like, years, Ages::wood).materials, "cherry"));
    // Linseed oil is in no step of `like`, and yellows or bleaches all the same; so does the varnish that is.
    const auto absorbs = [](const material::Materials& m, const std::string& id) {
        return material::absorption_per_mm(std::get<material::Binder>(m.at(id).data));
    };
    for (const char* id : {"boiled-linseed", "oil-varnish", "orange-shellac"})
        CHECK(absorbs(old_ones, id) != absorbs(fresh, id));
    CHECK(aged_alike(fresh, "cherry", like, {}).at("cherry").name == fresh.at("cherry").name);
    CHECK(reflects(aged_alike(fresh, "cherry", like, {}), "cherry") == reflects(fresh, "cherry"));
}
