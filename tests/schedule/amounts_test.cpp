// A pot's parts against the mix they make: what is weighed out gives back what a litre is said to hold.

#include <catch2/catch.hpp>
#include <cmath>
#include <functional>
#include <random>

#include "foretone/schedule/shop_arithmetic.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/pot.hpp"
#include "foretone/schedule/units.hpp"
#include "schedule/small_materials.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::schedule;
using namespace foretone::test;

namespace {

// A seeded mix of one family of units, with or without powder.
Step seeded_mix(std::mt19937_64& random) {
    const auto unit = [&] { return 0.05 + static_cast<double>(random() >> 11) * 0x1p-53; };
    const std::string liquids[] = {"water", "stock", "varnish", "oil"};
    Step s;
    const auto family = random() % 3;
    const Amount a = family == 0 ? Amount::parts : family == 1 ? Amount::parts_weight : Amount::ml;
    for (std::uint64_t n = 1 + random() % 3; n > 0; --n) s.mix.push_back({liquids[random() % 4], a, 10 * unit()});
    if (random() % 2) s.mix.push_back({"pigment", Amount::g_per_l, 100 * unit()});
    if (random() % 2) s.mix.push_back({"dye", Amount::oz_per_qt, unit()});
    return s;
}

std::string fault_id(const std::function<void()>& call) {
    try {
        call();
    } catch (const Fault& f) {
        return f.id + (f.part >= 0 ? " at " + std::to_string(f.part) : "");
    }
    return "none";
}

// The dye dissolves in everything that the mixes hold.
material::Materials mixable() {
    auto materials = small_materials();
    std::get<material::Dye>(materials.at("dye").data).carriers = {"water", "alcohol", "mineral-spirits"};
    return materials;
}

}  // namespace

TEST_CASE("the parts of a pot fill it, weigh what its density says, and hold what a litre of the mix holds") {
    std::mt19937_64 random(41);
    const auto materials = mixable();
    double volume = 0, weight = 0, powder = 0, binder = 0;
    for (int i = 0; i < 2000; ++i) {
        const auto s = seeded_mix(random);
        const double total = 20 + static_cast<double>(random() % 5000);
        const auto m = mix(s, materials);
        double ml = 0, g = 0, pigment_g = 0, dry_ml = 0;
        for (const auto& p : amounts(s, materials, total)) {
            ml += p.ml, g += p.g;
            if (p.id == "pigment") pigment_g += p.g;
            if (p.id == "varnish") dry_ml += 0.5 * p.ml;  // its file: half of it is solid
            if (p.id == "oil") dry_ml += p.ml;
        }
        double said_g_per_l = 0;
        for (const auto& p : m.powders) said_g_per_l += p.id == "pigment" ? p.g_per_l : 0;
        volume = worst_of(volume, std::abs(ml / total - 1));
        weight = worst_of(weight, std::abs(g / (total * m.density_g_per_ml) - 1));
        powder = worst_of(powder, std::abs(pigment_g - said_g_per_l * total / 1000));
        binder = worst_of(binder, std::abs(dry_ml - m.solids_share() * total));
    }
    CHECK(volume < closed_form);
    CHECK(weight < closed_form);
    CHECK(powder < 1e-6);
    CHECK(binder < 1e-6);
}

TEST_CASE("a mix does not depend on the order of its parts or on the size of its numbers") {
    std::mt19937_64 random(42);
    double worst = 0;
    for (int i = 0; i < 500; ++i) {
        const auto s = seeded_mix(random);
        auto turned = s, larger = s;
        std::reverse(turned.mix.begin(), turned.mix.end());
        for (auto& p : larger.mix)
            if (p.amount != Amount::g_per_l && p.amount != Amount::oz_per_qt) p.value *= 7;
        const auto a = deposit(s, mixable());
        for (const auto& other : {turned, larger}) {
            const auto b = deposit(other, mixable());
            worst = worst_of({worst, std::abs(a.laid_g / b.laid_g - 1), std::abs(a.binder_um - b.binder_um),
                              std::abs(a.pigment_g - b.pigment_g), std::abs(a.dye_g - b.dye_g)});
        }
    }
    CHECK(worst < 1e-6);
}

TEST_CASE("thicker is everything per area times as much, nothing else, and within what a coat can be") {
    const auto materials = small_materials();
    Step s;
    s.mix = {{"varnish", Amount::parts, 1}, {"stock", Amount::parts, 1}, {"pigment", Amount::g_per_l, 30}};
    s.wet_um = 60;
    const auto one = deposit(s, materials), twice = thicker(one, 2);
    for (const auto member : {&Deposit::wet_um, &Deposit::laid_g, &Deposit::liquid_g, &Deposit::binder_g,
                              &Deposit::dye_g, &Deposit::pigment_g, &Deposit::binder_um}) {
        CHECK(one.*member > 0);
        CHECK_THAT(twice.*member, Near(2 * (one.*member), closed_form));
    }
    CHECK_THAT(twice.dye_absorbance[40], Near(2 * one.dye_absorbance[40], closed_form));
    CHECK_THAT(twice.pigment_scattering[40], Near(2 * one.pigment_scattering[40], closed_form));
    CHECK_THAT(twice.pigment_absorbance[40], Near(2 * one.pigment_absorbance[40], closed_form));
    CHECK(twice.binder_absorption_per_mm[40] == one.binder_absorption_per_mm[40]);
    CHECK(twice.binder_depth_um == one.binder_depth_um);
    CHECK(fault_id([&] { thicker(one, 10); }) == "wet-range");
    CHECK(fault_id([&] { thicker(one, 0.01); }) == "wet-range");
    CHECK(fault_id([&] { thicker(one, 500.0 / 60 - 1e-9); }) == "none");
    // Laid on twice as wet it is the same.
    s.wet_um = 120;
    CHECK_THAT(deposit(s, materials).laid_g, Near(twice.laid_g, closed_form));
}

TEST_CASE("a further coat keeps the liquid and drops what is done once") {
    Step s;
    s.mix = {{"varnish", Amount::parts, 1}};
    s.sand = 180, s.water_pop = true, s.scuff = true, s.after_days = 2;
    const auto first = deposit(s, small_materials()), next = further_coat(first);
    CHECK((first.sand == 180.0 && first.water_pop && first.scuff && first.waited_h == 48.0));
    CHECK((!next.sand && !next.water_pop && !next.scuff && !next.waited_h));
    CHECK((next.binder_um == first.binder_um && next.wet_um == first.wet_um));
}

TEST_CASE("of several binders the indices, colors and depths are mixed by dry volume") {
    auto materials = small_materials();
    auto& oil = std::get<material::Binder>(materials["oil"].data);
    oil.n = figure(1.47);
    oil.absorption_per_mm = material::SpectrumFigure{spectral::Spectrum::constant(8), 0, {}, false, false, false};
    Step s;
    s.mix = {{"varnish", Amount::parts, 2}, {"oil", Amount::parts, 1}};  // one part dry of each
    s.wet_um = 90;
    s.method = material::Method::brush;
    const auto d = deposit(s, materials);
    CHECK_THAT(d.binder_um, Near(90 * 2.0 / 3, closed_form));
    CHECK_THAT(d.binder_n, Near((1.5 + 1.47) / 2, closed_form));
    CHECK_THAT(d.binder_absorption_per_mm[10], Near((2 + 8) / 2.0, closed_form));
    CHECK_THAT(d.stay, Near((0.8 + 0.2) / 2, closed_form));
    CHECK_THAT(d.binder_depth_um, Near((40 + 150) / 2.0, closed_form));
}

TEST_CASE("a mix that cannot be is refused with the part at fault") {
    const auto materials = small_materials();
    const auto fault_at = [&](std::vector<Part> parts) {
        return fault_id([&] {
            Step s;
            s.mix = std::move(parts);
            mix(s, materials);
        });
    };
    CHECK(fault_at({{"water", Amount::parts, 1}, {"nothing", Amount::parts, 1}}) == "material-unknown at 1");
    CHECK(fault_at({{"water", Amount::parts, 1}, {"wood", Amount::parts, 1}}) == "mix-not-a-finish at 1");
    CHECK(fault_at({{"water", Amount::g_per_l, 1}}) == "mix-load at 0");
    CHECK(fault_at({{"water", Amount::parts, 1}, {"dye", Amount::parts, 1}}) == "mix-powder-by-volume at 1");
    CHECK(fault_at({{"water", Amount::parts, 1}, {"varnish", Amount::ml, 1}}) == "mix-units at 1");
    CHECK(fault_at({{"dye", Amount::g, 1}}) == "mix-dry");
    CHECK(fault_at({{"water", Amount::percent_volume, 99.4}, {"varnish", Amount::percent_volume, 0}}) == "mix-percent");
    CHECK(fault_at({{"water", Amount::percent_volume, 99.5}, {"varnish", Amount::percent_volume, 0}}) == "none");
    CHECK(fault_at({{"water", Amount::percent_volume, 50}, {"varnish", Amount::percent_weight, 50}}) == "mix-percent");
}

TEST_CASE("what stays on the rag is less than what goes to the air, and a method is guessed from what stays up") {
    using material::Method;
    CHECK((loss_share(Method::brush) < loss_share(Method::roll) &&
           loss_share(Method::roll) < loss_share(Method::wipe) &&
           loss_share(Method::wipe) < loss_share(Method::spray)));
    const auto guessed = [&](const std::string& id, double stay) {
        auto materials = small_materials();
        if (auto* b = std::get_if<material::Binder>(&materials[id].data)) b->stay = figure(stay);
        Step s;
        s.mix = {{id, Amount::parts, 1}};
        return method_of(s, materials);
    };
    CHECK(guessed("varnish", 0.5) == Method::brush);
    CHECK(guessed("varnish", 0.499) == Method::wipe);
    CHECK(guessed("stock", 0) == Method::wipe);
}

TEST_CASE("what cannot be a bench figure is refused, to the bound") {
    CHECK_THROWS_AS(ladder(21, 0.5, 10), std::invalid_argument);
    CHECK(ladder(20, 0.5, 10).size() == 20);
    CHECK_THROWS_AS(ladder(0, 0.5, 10), std::invalid_argument);
    CHECK_THROWS_AS(ladder(3, 1, 10), std::invalid_argument);
    CHECK_THROWS_AS(tint(100, 100), std::invalid_argument);
    CHECK_THROWS_AS(thinning_parts(2, 2.01), std::invalid_argument);
    CHECK(thinning_parts(2, 2) == 0);
    CHECK_THROWS_AS(cut_from_weight_percent(100), std::invalid_argument);
    CHECK_THROWS_AS(to_step(1, 0), std::invalid_argument);
    CHECK_THROWS_AS(coverage_m2_per_l(0), std::invalid_argument);
    CHECK_THROWS_AS(dry_um(100, 100.1), std::invalid_argument);
    CHECK(dry_um(100, 100) == 100);
    for (const char* said : {"0.009lb/gal", "10.01lb/gal", "99.9%w-resin"})
        CHECK(fault_id([&] { cut_in(read_amount(said, Dimension::cut), {}); }) == "cut-range");
    CHECK(cut_in(read_amount("10lb/gal", Dimension::cut), {}) == 10);
}

// NIST Special Publication 811 (2008), appendix B: the exact definitions, multiplied out by hand.
TEST_CASE("every unit is its exact definition in the unit that is stored") {
    constexpr double inch_m = 0.0254, pound_g = 453.59237, gallon_l = 231 * 16.387064e-3;  // 231 cubic inches
    const std::pair<const char*, double> defined[] = {{"floz", gallon_l * 1000 / 128},
                                                      {"pt", gallon_l * 1000 / 8},
                                                      {"qt", gallon_l * 1000 / 4},
                                                      {"gal", gallon_l * 1000},
                                                      {"oz", pound_g / 16},
                                                      {"lb", pound_g},
                                                      {"kg", 1000},
                                                      {"ft2", 144 * inch_m * inch_m},
                                                      {"in2", inch_m * inch_m},
                                                      {"cm2", 1e-4},
                                                      {"mil", inch_m * 1e3},
                                                      {"oz/pt", 8.0 / 16},
                                                      {"oz/qt", pound_g / 16 / (gallon_l / 4)},
                                                      {"oz/gal", pound_g / 16 / gallon_l},
                                                      {"%w/v", 10},
                                                      {"ft2/gal", 144 * inch_m * inch_m / gallon_l},
                                                      {"min", 1.0 / 60},
                                                      {"d", 24},
                                                      {"g/L-alcohol", gallon_l / pound_g}};
    int compared = 0;
    for (const auto& [name, due] : defined)
        for (const auto& u : units())
            if (u.name == name) {
                INFO(name);
                CHECK_THAT(u.factor / due, Near(1, closed_form));
                ++compared;
            }
    CHECK(compared == 19);
    CHECK_THAT(amount_in("212F", Dimension::temperature, 0, 200), Near(100, closed_form));
    CHECK(fault_id([] { amount_in("213F", Dimension::temperature, 0, 100); }) == "amount-range");
    CHECK_THROWS_WITH(amount_in("300F", Dimension::temperature, 0, 100), Catch::Contains("from 32 F to 212 F"));
}
