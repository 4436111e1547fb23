#include <catch2/catch.hpp>
#include <cmath>
#include <random>

#include "foretone/schedule/lodging.hpp"
#include "foretone/schedule/uptake.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;
using material::Method;

namespace {

const material::Materials materials = small_materials();
const UptakeLaw wood_law;

Step step(const std::string& id, Method method, double wet_um) {
    Step s;
    s.mix = {{id, Amount::parts, 1}};
    s.method = method;
    s.wet_um = wet_um;
    return s;
}

Ground bare() {
    Ground g;
    g.level_um = 5;
    return g;
}

Ground coated(double film_um) {
    Ground g = bare();
    g.film_um = film_um;
    return g;
}

void closes(const Fate& f) {
    CHECK_THAT(f.sum(), Near(f.laid, closed_form));
    for (const double part : {f.laid, f.in, f.on, f.wiped, f.gone}) CHECK(part >= 0);
}

void closes(const Account& a) {
    for (const Fate& f : {a.liquid, a.binder, a.dye, a.pigment}) closes(f);
}

}  // namespace

TEST_CASE("a coat's masses add up to what is laid on") {
    for (const std::string id : {"stock", "varnish", "resin", "oil", "water"}) {
        const auto d = deposit(step(id, Method::wipe, 60), materials);
        INFO(id);
        CHECK_THAT(d.liquid_g + d.binder_g + d.dye_g + d.pigment_g, Near(d.laid_g, closed_form));
        CHECK(d.liquid_g >= 0);
    }
    const auto resin = deposit(step("resin", Method::brush, 60), materials);
    CHECK_THAT(resin.binder_g, Near(resin.binder_um * 1.15, closed_form));  // the material's density of dry resin
    CHECK(deposit(step("oil", Method::wipe, 40), materials).liquid_g == 0);
}

TEST_CASE("bare wood takes all of a dye of usual amount, as deep as its liquid's file says at 70 g/m2") {
    auto s = step("stock", Method::wipe, 1);
    s.wet_um.reset();
    s.wet_g_per_m2 = 70;
    const auto u = uptake(deposit(s, materials), bare(), wood_law);
    CHECK_THAT(u.dye_in, Near(1, identity));
    CHECK_THAT(u.liquid_depth_um, Near(150, closed_form));
    closes(u.account);
    CHECK_THAT(u.account.dye.in, Near(u.account.dye.laid, closed_form));
}

TEST_CASE("more than wood can draw in is wiped off, stays in part under a brush, and all stays when sprayed") {
    const auto fates = [&](Method m) {
        return uptake(deposit(step("stock", m, 250), materials), bare(), wood_law).account;
    };
    const auto wiped = fates(Method::wipe), brushed = fates(Method::brush), sprayed = fates(Method::spray);
    for (const auto& a : {wiped, brushed, sprayed}) {
        closes(a);
        CHECK_THAT(a.dye.laid, Near(5, closed_form));              // 20 g/L, 250 mL/m²
        CHECK_THAT(a.dye.in, Near(5 * 100.0 / 250, closed_form));  // suction 100 µm of the 250
    }
    CHECK_THAT(wiped.dye.wiped, Near(3, closed_form));
    CHECK_THAT(brushed.dye.on, Near(wood_law.brushed_left * 3, closed_form));
    CHECK_THAT(sprayed.dye.on, Near(3, closed_form));
    CHECK(sprayed.dye.wiped == 0);
}

TEST_CASE("twice the flooding time takes in √2 times as much, and is laid on by as much") {
    auto s = step("stock", Method::wipe, 60);
    const auto usual = uptake(deposit(s, materials), bare(), wood_law);
    s.flood_minutes = 2 * usual_flood_min;
    const auto twice = uptake(deposit(s, materials), bare(), wood_law);
    CHECK_THAT(twice.account.dye.in, Near(std::sqrt(2.0) * usual.account.dye.in, closed_form));
    CHECK_THAT(twice.account.dye.laid, Near(std::sqrt(2.0) * usual.account.dye.laid, closed_form));
    s.flood_minutes = usual_flood_min / 2;  // wiped off early: the same is laid on
    const auto early = uptake(deposit(s, materials), bare(), wood_law);
    CHECK_THAT(early.account.dye.laid, Near(usual.account.dye.laid, closed_form));
    CHECK_THAT(early.account.dye.in, Near(usual.account.dye.in / std::sqrt(2.0), closed_form));
    CHECK_THAT(early.account.dye.wiped, Near(early.account.dye.laid - early.account.dye.in, closed_form));
    s.method = Method::spray;
    CHECK_THROWS_AS(deposit(s, materials), Fault);
}

TEST_CASE("dye wiped over a film leaves its texture's residue; scuffed it leaves more") {
    Ground film = coated(60);
    const auto d = deposit(step("stock", Method::wipe, 60), materials);
    const auto smooth = uptake(d, film, wood_law);
    CHECK(smooth.dye_in < 1e-3);
    CHECK_THAT(smooth.dye_on, Near(wood_law.residue_um / 60, 1e-6));  // but for the e⁻⁸ that is open
    film.scratched = 1;
    CHECK_THAT(uptake(d, film, wood_law).dye_on, Near(wood_law.scratch_residue_um / 60, 1e-5));
    closes(smooth.account);
}

TEST_CASE("what has not dried seals less, and takes a little room") {
    Ground dry = coated(4);
    dry.filled = {{40, 0.1}};
    Ground wet = bare();  // film and plug have not set: the board leaves them out
    wet.wet = 1;
    const auto d = deposit(step("stock", Method::wipe, 60), materials);
    CHECK(uptake(d, dry, wood_law).dye_in < uptake(d, wet, wood_law).dye_in);
    CHECK(uptake(d, wet, wood_law).dye_in < uptake(d, bare(), wood_law).dye_in);
}

TEST_CASE("a wiped pigment keeps what scratches and pores hold, the more the coarser the paper") {
    Step s;
    s.mix = {{"pigment", Amount::percent_weight, 10}, {"water", Amount::rest, 0}};
    s.wet_um = 70;
    s.method = Method::wipe;
    double before = 0;
    for (const double grit : {400.0, 220.0, 120.0}) {
        Ground g = bare();
        g.ready.grit = grit;
        const auto u = uptake(deposit(s, materials), g, wood_law);
        closes(u.account);
        CHECK_THAT(u.account.pigment.in,
                   Near(deposit(s, materials).pigment_g * lodged(wood_law, g, 2).flats_um / 70, closed_form));
        CHECK(u.account.pigment.in > before);
        CHECK(u.account.pigment.wiped > 0);
        before = u.account.pigment.in;
    }
    s.method = Method::spray;
    CHECK_THAT(uptake(deposit(s, materials), bare(), wood_law).pigment_in, Near(1, identity));
}

TEST_CASE("over spots the mean of what goes in is the mean spot's where the wood is bare") {
    const auto d = deposit(step("stock", Method::wipe, 60), materials);
    const auto mean = uptake(d, bare(), wood_law);
    for (const double u : {0.0, 0.5, 1.0, 2.5}) {
        Ground spot = bare();
        spot.uptake = u;
        CHECK_THAT(uptake(d, spot, wood_law, &mean).dye_in, Near(u * mean.dye_in, closed_form));
    }
}

TEST_CASE("10,000 seeded coats: books close, nothing is negative, nothing is made") {
    std::mt19937_64 random(14);
    const auto unit = [&] { return static_cast<double>(random() >> 11) * 0x1p-53; };
    const std::vector<std::string> ids = {"stock", "varnish", "resin", "oil", "water"};
    int wrong = 0;
    for (int i = 0; i < 10000; ++i) {
        auto s = step(ids[random() % ids.size()], static_cast<Method>(random() % 4), 1 + 400 * unit() * unit());
        if (random() % 3 == 0) s.mix.push_back({"pigment", Amount::g_per_l, 200 * unit()});
        if (s.method == Method::wipe && random() % 3 == 0) s.flood_minutes = 0.5 + 3 * unit();
        Ground g;
        g.absorbency = 0.3 + 2 * unit();
        g.porosity = 0.3 + 0.5 * unit();
        g.level_um = 2 + 5 * unit();
        g.film_um = random() % 2 ? 40 * unit() * unit() : 0;
        g.ready = {60 + 340 * unit(), random() % 2 ? 0.0 : 1.0};
        g.pore_share = random() % 2 ? unit() : 0;
        g.pore_um = 300 * unit();
        g.wet = random() % 4 == 0 ? unit() : 0;
        if (random() % 2) g.filled = {{20 + 100 * unit(), unit()}};
        const auto d = deposit(s, materials);
        const auto u = uptake(d, g, wood_law);
        const double topped = d.wiped ? std::max(1.0, d.flood * taking(wood_law, g.ready)) / std::max(1.0, d.flood) : 1;
        double laid = 0;
        for (const Fate& f : {u.account.liquid, u.account.binder, u.account.dye, u.account.pigment}) {
            const bool good = f.in >= 0 && f.on >= 0 && f.wiped >= 0 && f.gone >= 0 &&
                              std::abs(f.laid - f.sum()) <= closed_form && f.in <= f.laid * (1 + closed_form);
            wrong += good ? 0 : 1;
            laid += f.laid;
        }
        if (!(std::abs(laid - d.laid_g * topped) <= 1e-9 * d.laid_g * topped)) ++wrong;
        if (!(u.film_um >= 0 && u.binder_in_um >= 0 && u.liquid_depth_um >= 0)) ++wrong;
    }
    CHECK(wrong == 0);
}
