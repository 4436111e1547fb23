// Ready colored coats and treatments as deposits: what a litre holds, what is refused, what a step can say.

#include <catch2/catch.hpp>

#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/order_rules.hpp"
#include "support/tolerance.hpp"
#include "support/whole_library.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

Step color_step(std::vector<Part> mix, std::optional<material::Method> method = {}) {
    Step s;
    s.mix = std::move(mix);
    s.method = method;
    return s;
}

Step ready_step(const std::string& id) { return color_step({{id, Amount::parts, 1}}); }

std::string fault_text(const Step& step, const std::string& id) {
    try {
        deposit(step, whole_library());
    } catch (const Fault& f) {
        CHECK(f.id == id);
        return f.what();
    }
    return "no fault";
}

const material::Wood& shelf_wood(const std::string& id) {
    return std::get<material::Wood>(whole_library().at(id).data);
}

bool finds(const Finish& finish, const std::string& wood, const std::string& id, Severity severity) {
    const auto all = check_order(finish, whole_library(), &shelf_wood(wood));
    return std::any_of(all.begin(), all.end(), [&](const auto& f) { return f.id == id && f.severity == severity; });
}

}  // namespace

TEST_CASE("two pigments mixed are the sum of their coefficients by weight") {
    const auto& all = whole_library();
    const auto both = color_step({{"oil-varnish", Amount::rest, 1},
                                  {"burnt-umber", Amount::percent_weight, 3},
                                  {"yellow-iron-oxide", Amount::percent_weight, 2}},
                                 material::Method::brush);
    const Deposit d = deposit(both, all);
    const auto mixture = mix(both, all);
    double worst = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        double a = 0, s = 0;
        for (const auto& p : mixture.powders) {
            const auto& pigment = std::get<material::Pigment>(all.at(p.id).data);
            const double g_per_m2 = p.g_per_l * d.wet_um / 1000;  // 1 um over 1 m2 is 1 mL
            a += g_per_m2 * pigment.absorption_m2_per_g.values[i];
            s += g_per_m2 * pigment.scattering_m2_per_g.values[i];
        }
        worst = worst_of({worst, std::abs(d.pigment_absorbance[i] - a), std::abs(d.pigment_scattering[i] - s)});
    }
    CHECK(worst < closed_form);
    CHECK_THAT(mixture.powders[0].g_per_l / mixture.powders[1].g_per_l, Near(1.5, closed_form));
}

TEST_CASE("a ready coat is what its file says it is made of") {
    const auto& all = whole_library();
    for (const auto& [id, m] : all) {
        const auto* c = std::get_if<material::Colored>(&m.data);
        if (!c) continue;
        INFO(id);
        const auto held = mix(ready_step(id), all);
        REQUIRE(held.binders.size() == 1);
        CHECK(held.binders[0].id == c->binder);
        CHECK_THAT(held.solids_share(), Near(c->binder_volume_percent.value / 100, closed_form));
        CHECK(held.carrier == c->carrier);
        REQUIRE(held.powders.size() == c->mix.size());
        for (std::size_t i = 0; i < c->mix.size(); ++i)
            CHECK_THAT(held.powders[i].g_per_l, Near(c->mix[i].g_per_l * c->strength.value, 1e-9 * c->mix[i].g_per_l));
        CHECK((held.density_g_per_ml > 0.8 && held.density_g_per_ml < 1.8));
        const Deposit d = deposit(ready_step(id), all);
        CHECK_THAT(d.wet_um, Near(c->wet_um.value, closed_form));
        CHECK(d.wiped == (m.kind != material::Kind::toner));
        // Nothing is lost: what is laid is liquid, binder and powders.
        CHECK_THAT(d.liquid_g + d.binder_g + d.dye_g + d.pigment_g, Near(d.laid_g, 1e-9 * d.laid_g));
    }
}

TEST_CASE("a toner whose dye does not dissolve in its carrier is refused, with those that do") {
    auto all = whole_library();
    auto& toner = std::get<material::Colored>(all.at("brown-toner").data);
    toner.mix = {{"acid-red-1", 2}};
    try {
        deposit(ready_step("brown-toner"), all);
        CHECK(false);
    } catch (const Fault& f) {
        CHECK(f.id == "dye-undissolved");
        const std::string text = f.what();
        for (const char* word : {"lacquer-thinner", "water", "brown-solvent-dye", "solvent-red-24"}) {
            INFO(text);
            CHECK(text.find(word) != std::string::npos);
        }
        CHECK(text.find("acid-orange-10") == std::string::npos);  // that one does not either
    }
    // The same for a film tinted on the bench; a dye of its own liquid is no fault.
    const auto spray = material::Method::spray;
    fault_text(color_step({{"nitrocellulose-lacquer", Amount::parts, 1}, {"acid-red-1", Amount::g_per_l, 2}}, spray),
               "dye-undissolved");
    CHECK(deposit(
              color_step({{"nitrocellulose-lacquer", Amount::parts, 1}, {"solvent-red-24", Amount::g_per_l, 2}}, spray),
              whole_library())
              .dye_g > 0);
    // Oil takes what spirits dissolve.
    CHECK(deposit(color_step({{"boiled-linseed", Amount::parts, 1}, {"solvent-red-24", Amount::g_per_l, 2}}),
                  whole_library())
              .dye_g > 0);
    fault_text(color_step({{"boiled-linseed", Amount::parts, 1}, {"acid-red-1", Amount::g_per_l, 2}}),
               "dye-undissolved");
}

TEST_CASE("passes add up wet on wet, toner strength is the color's alone") {
    auto one = ready_step("amber-toner"), three = one, half = one;
    three.passes = 3;
    half.toner_strength = 0.5;
    const auto a = deposit(one, whole_library()), b = deposit(three, whole_library()),
               c = deposit(half, whole_library());
    CHECK_THAT(b.wet_um, Near(3 * a.wet_um, closed_form));
    CHECK_THAT(b.dye_absorbance[10], Near(3 * a.dye_absorbance[10], closed_form));
    CHECK_THAT(c.dye_absorbance[10], Near(0.5 * a.dye_absorbance[10], closed_form));
    CHECK_THAT(c.binder_um, Near(a.binder_um, closed_form));
}

TEST_CASE("what a step cannot say of its coat is refused with what it is for") {
    auto glaze = ready_step("umber-glaze");
    glaze.passes = 2;
    CHECK(fault_text(glaze, "passes-not-sprayed").find("sprayed") != std::string::npos);
    auto toner = ready_step("amber-toner");
    toner.remainder = 0.2;
    CHECK(fault_text(toner, "remainder-not-wiped").find("wiped") != std::string::npos);
    auto dye = color_step({{"honey-dye", Amount::parts, 1}, {"water", Amount::parts, 9}});
    dye.remainder = 0.2;
    CHECK(fault_text(dye, "remainder-not-wiped").find("binds") != std::string::npos);
    auto film = color_step({{"oil-varnish", Amount::parts, 1}});
    film.toner_strength = 2;
    CHECK(fault_text(film, "toner-strength").find("toner") != std::string::npos);
    CHECK(fault_text(color_step({{"lye-wash", Amount::parts, 1}, {"water", Amount::parts, 1}}), "mix-treatment")
              .find("alone") != std::string::npos);
    auto all = whole_library();
    std::get<material::Colored>(all.at("natural-filler").data).mix = {{"chalk", 3000}};
    CHECK_THROWS_AS(deposit(ready_step("natural-filler"), all), Fault);
}

TEST_CASE("a treatment that finds nothing to react with is refused on that wood, with what mends it") {
    const Finish iron{"iron", {ready_step("iron-solution")}};
    CHECK(finds(iron, "hard-maple", "no-tannin", Severity::failure));
    CHECK_FALSE(finds(iron, "white-oak", "no-tannin", Severity::failure));
    CHECK_FALSE(finds({"fed", {ready_step("tannin-coat"), ready_step("iron-solution")}}, "hard-maple", "no-tannin",
                      Severity::failure));
    CHECK(finds({"fume", {ready_step("ammonia-fuming")}}, "pine", "no-tannin", Severity::failure));
    CHECK(finds({"chlorine", {ready_step("chlorine-bleach")}}, "cherry", "no-dye-below", Severity::failure));
    CHECK_FALSE(finds({"dyed", {ready_step("honey-dye"), ready_step("chlorine-bleach")}}, "cherry", "no-dye-below",
                      Severity::failure));
    CHECK(finds({"clean", {ready_step("oxalic-acid")}}, "white-oak", "no-iron-below", Severity::warning));
    CHECK_FALSE(finds({"stained", {ready_step("iron-solution"), ready_step("oxalic-acid")}}, "white-oak",
                      "no-iron-below", Severity::warning));
    CHECK(finds({"over", {ready_step("waterborne-acrylic"), ready_step("two-part-bleach")}}, "white-oak",
                "treatment-over-finish", Severity::failure));
    const auto findings = check_order(iron, whole_library(), &shelf_wood("hard-maple"));
    REQUIRE(findings.size() == 1);
    CHECK(findings[0].what.find("no tannin to react with") != std::string::npos);
    for (const auto& m : findings[0].mends) {
        INFO(m.text);
        CHECK_FALSE(fails(
            check_order(mended(iron, findings[0], m, whole_library()), whole_library(), &shelf_wood("hard-maple"))));
    }
}

TEST_CASE("what is made by a treatment goes from nothing to all of it, and bleach never passes its floor") {
    WoodChange c;
    c.half_tannin_percent = 3;
    CHECK(c.made(0) == 0);
    CHECK_THAT(c.made(3), Near(0.5, identity));
    CHECK(c.made(1e6) < 1);
    c.takes_wood = 0.6;
    c.floor = 0.2;
    double left = 1;
    for (int coat = 0; coat < 50; ++coat) {
        const double next = c.left_after(left, 1);
        CHECK(next <= left);
        CHECK(next >= c.floor - identity);
        left = next;
    }
    CHECK_THAT(left, Near(0.2, 1e-9));
    CHECK_THAT(c.left_after(1, 0), Near(1, identity));
}
