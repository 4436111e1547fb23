/// The keys of a material file stand for the figures they name, each in a range that a slip of the unit leaves.

#include <catch2/catch.hpp>

#include <cmath>
#include <functional>
#include <set>

#include "foretone/material/figures.hpp"
#include "support/tolerance.hpp"

namespace {

using foretone::material::Binder;
using foretone::material::Dye;
using foretone::material::Figure;
using foretone::material::FigureAt;
using foretone::material::Grain;
using foretone::material::Liquid;
using foretone::material::Material;
using foretone::material::Pigment;
using foretone::material::SpectrumFigure;
using foretone::material::Stock;
using foretone::material::Wood;

/// A binder that has every figure a binder can have.
Binder full_binder() {
    Binder b;
    b.gardner.emplace(), b.gardner_solids_volume_percent.emplace(), b.absorption_per_mm.emplace();
    b.density_g_per_ml.emplace(), b.solids_volume_percent.emplace(), b.resin_density_g_per_ml.emplace();
    b.cut_lb.emplace();
    for (auto& w : b.wet_um) w.emplace();
    return b;
}

Wood grained_wood() {
    Wood w;
    w.grain = foretone::material::plain_grain();
    return w;
}

/// One material of every kind of data, with all that it can hold.
std::vector<Material> one_of_each() {
    std::vector<Material> out;
    const auto add = [&](auto data) {
        Material m;
        m.data = std::move(data);
        out.push_back(std::move(m));
    };
    add(grained_wood()), add(Dye{}), add(Stock{}), add(Pigment{}), add(full_binder()), add(Liquid{});
    return out;
}

FigureAt figure_named(Material& m, const std::string& key) {
    for (const auto& f : foretone::material::figures(m))
        if (f.key == key) return f;
    FAIL("no figure " << key);
    return {};
}

/// Each key and where it must lead: a value written there is found under the key, and nowhere else.
template <class Data>
void leads(const Data& data, const std::vector<std::pair<std::string, std::function<Figure&(Data&)>>>& due) {
    for (const auto& [key, member] : due) {
        INFO(key);
        Material m;
        m.data = data;
        for (const auto& f : foretone::material::figures(m))
            if (f.figure) f.figure->value = 0;
        member(std::get<Data>(m.data)).value = 7.25;
        std::size_t found = 0;
        for (const auto& f : foretone::material::figures(m)) {
            if (!f.figure || f.figure->value != 7.25) continue;
            CHECK(f.key == key);
            ++found;
        }
        CHECK(found == 1);
    }
}

}  // namespace

TEST_CASE("every figure has a key of its own, one value and a range that holds something") {
    for (auto& m : one_of_each()) {
        std::set<std::string> keys;
        for (const auto& f : foretone::material::figures(m)) {
            INFO(f.key);
            CHECK(keys.insert(f.key).second);
            CHECK((f.figure == nullptr) != (f.spectrum == nullptr));
            CHECK(f.low < f.high);
            CHECK(std::isfinite(f.low));
            CHECK(std::isfinite(f.high));
        }
        CHECK_FALSE(keys.empty());
    }
}

TEST_CASE("the keys of a wood lead to its figures") {
    leads<Wood>(grained_wood(), {{"surface_k1", [](Wood& w) -> Figure& { return w.surface_k1; }},
                                 {"surface_k2", [](Wood& w) -> Figure& { return w.surface_k2; }},
                                 {"scattering_per_mm", [](Wood& w) -> Figure& { return w.scattering_per_mm; }},
                                 {"scattering_exponent", [](Wood& w) -> Figure& { return w.scattering_exponent; }},
                                 {"n", [](Wood& w) -> Figure& { return w.n; }},
                                 {"porosity", [](Wood& w) -> Figure& { return w.porosity; }},
                                 {"density_g_per_cm3", [](Wood& w) -> Figure& { return w.density_g_per_cm3; }},
                                 {"level_um", [](Wood& w) -> Figure& { return w.level_um; }},
                                 {"absorbency", [](Wood& w) -> Figure& { return w.absorbency; }},
                                 {"grain.late_share", [](Wood& w) -> Figure& { return w.grain->late_share; }},
                                 {"grain.late_shade", [](Wood& w) -> Figure& { return w.grain->late_shade; }},
                                 {"grain.line_mm", [](Wood& w) -> Figure& { return w.grain->line_mm; }},
                                 {"grain.pore_um", [](Wood& w) -> Figure& { return w.grain->pore_um; }},
                                 {"grain.pore_mm", [](Wood& w) -> Figure& { return w.grain->pore_mm; }},
                                 {"grain.small_pore_um", [](Wood& w) -> Figure& { return w.grain->small_pore_um; }},
                                 {"grain.ray_um", [](Wood& w) -> Figure& { return w.grain->ray_um; }},
                                 {"grain.ray_mm", [](Wood& w) -> Figure& { return w.grain->ray_mm; }},
                                 {"grain.ray_shade", [](Wood& w) -> Figure& { return w.grain->ray_shade; }},
                                 {"grain.ray_end_shade", [](Wood& w) -> Figure& { return w.grain->ray_end_shade; }},
                                 {"grain.curl_deg", [](Wood& w) -> Figure& { return w.grain->curl_deg; }},
                                 {"grain.ribbon_deg", [](Wood& w) -> Figure& { return w.grain->ribbon_deg; }},
                                 {"grain.blotch", [](Wood& w) -> Figure& { return w.grain->blotch; }},
                                 {"grain.end_uptake", [](Wood& w) -> Figure& { return w.grain->end_uptake; }}});
}

TEST_CASE("the keys of a binder lead to its figures, and each method's wet film to its own") {
    leads<Binder>(
        full_binder(),
        {{"gardner", [](Binder& b) -> Figure& { return *b.gardner; }},
         {"gardner_solids_volume_percent", [](Binder& b) -> Figure& { return *b.gardner_solids_volume_percent; }},
         {"n", [](Binder& b) -> Figure& { return b.n; }},
         {"density_g_per_ml", [](Binder& b) -> Figure& { return *b.density_g_per_ml; }},
         {"solids_volume_percent", [](Binder& b) -> Figure& { return *b.solids_volume_percent; }},
         {"resin_density_g_per_ml", [](Binder& b) -> Figure& { return *b.resin_density_g_per_ml; }},
         {"cut_lb", [](Binder& b) -> Figure& { return *b.cut_lb; }},
         {"haze_per_mm", [](Binder& b) -> Figure& { return b.haze_per_mm; }},
         {"haze_exponent", [](Binder& b) -> Figure& { return b.haze_exponent; }},
         {"stay", [](Binder& b) -> Figure& { return b.stay; }},
         {"depth_um", [](Binder& b) -> Figure& { return b.depth_um; }},
         {"sheen_gu60", [](Binder& b) -> Figure& { return b.sheen_gu60; }},
         {"wet_um.wipe", [](Binder& b) -> Figure& { return *b.wet_um[0]; }},
         {"wet_um.brush", [](Binder& b) -> Figure& { return *b.wet_um[1]; }},
         {"wet_um.spray", [](Binder& b) -> Figure& { return *b.wet_um[2]; }},
         {"wet_um.roll", [](Binder& b) -> Figure& { return *b.wet_um[3]; }},
         {"coverage_m2_per_l", [](Binder& b) -> Figure& { return b.coverage_m2_per_l; }}});
}

TEST_CASE("the keys of a liquid, a powder and a stock lead to their figures") {
    leads<Liquid>({}, {{"n", [](Liquid& l) -> Figure& { return l.n; }},
                       {"density_g_per_ml", [](Liquid& l) -> Figure& { return l.density_g_per_ml; }},
                       {"depth_um", [](Liquid& l) -> Figure& { return l.depth_um; }},
                       {"fill", [](Liquid& l) -> Figure& { return l.fill; }}});
    leads<Dye>({}, {{"molar_mass_g_per_mol", [](Dye& d) -> Figure& { return d.molar_mass_g_per_mol; }},
                    {"purity", [](Dye& d) -> Figure& { return d.purity; }},
                    {"density_g_per_cm3", [](Dye& d) -> Figure& { return d.density_g_per_cm3; }}});
    leads<Stock>({}, {{"strength", [](Stock& s) -> Figure& { return s.strength; }}});
    Material m;
    m.data = Pigment{};
    CHECK(figure_named(m, "absorption_m2_per_g").spectrum == &std::get<Pigment>(m.data).absorption_m2_per_g);
    CHECK(figure_named(m, "scattering_m2_per_g").spectrum == &std::get<Pigment>(m.data).scattering_m2_per_g);
}

TEST_CASE("shares end at 1, percentages at 100, and a Gardner number runs from 1 to 18") {
    // Definitions: a share of a whole; ASTM D1544 has the numbers 1 to 18.
    Material wood, binder, liquid, dye;
    wood.data = grained_wood(), binder.data = full_binder(), liquid.data = Liquid{}, dye.data = Dye{};
    const auto ends = [](Material& m, const char* key, double low, double high) {
        INFO(key);
        const auto f = figure_named(m, key);
        CHECK(f.low >= low);
        CHECK(f.high <= high);
    };
    ends(wood, "reflectance", 0, 1), ends(wood, "porosity", 0, 1);
    ends(wood, "grain.late_share", 0, 1), ends(wood, "grain.pore_zone", 0, 1), ends(wood, "grain.late_abrupt", 0, 1);
    ends(binder, "stay", 0, 1), ends(liquid, "fill", 0, 1), ends(dye, "purity", 0, 1);
    ends(binder, "solids_volume_percent", 0, 100), ends(binder, "gardner_solids_volume_percent", 0, 100);
    ends(binder, "sheen_gu60", 0, 100);
    CHECK(figure_named(binder, "gardner").low == 1);
    CHECK(figure_named(binder, "gardner").high == 18);
    CHECK(figure_named(binder, "sheen_gu60").high == 100);
    CHECK(figure_named(binder, "n").low > 1);  // denser than air
}

TEST_CASE("no color depends on weights, coverage or the look of a face; on everything else one can") {
    const std::set<std::string> colorless = {"density_g_per_cm3", "coverage_m2_per_l"};
    for (auto& m : one_of_each())
        for (const auto& f : foretone::material::figures(m)) {
            INFO(f.key);
            CHECK(f.optical == (colorless.count(f.key) == 0 && f.key.rfind("grain.", 0) != 0));
        }
}

TEST_CASE("any figure moved by any number of its spreads stays in its range, and back again where it was not cut") {
    for (auto& m : one_of_each())
        for (const auto& f : foretone::material::figures(m)) {
            INFO(f.key);
            if (f.spectrum) {
                f.spectrum->sd = 0.2;
                for (double& v : f.spectrum->values) v = 0.5 * (f.low + f.high);
                const double before = f.spectrum->values[40];
                foretone::material::move(f, 0);
                CHECK(f.spectrum->values[40] == before);
                foretone::material::move(f, -100);
                for (const double v : f.spectrum->values) CHECK(v == std::max(0.0, f.low));
                continue;
            }
            *f.figure = {0.5 * (f.low + f.high), 0.1 * (f.high - f.low), {}};
            const double before = f.figure->value;
            foretone::material::move(f, 2);
            CHECK_THAT(f.figure->value, foretone::test::Near(before + 0.2 * (f.high - f.low), 1e-12 * f.high));
            foretone::material::move(f, -2);
            CHECK_THAT(f.figure->value, foretone::test::Near(before, 1e-12 * f.high));
            foretone::material::move(f, 1000);
            CHECK(f.figure->value == f.high);
            foretone::material::move(f, -1000);
            CHECK(f.figure->value == f.low);
        }
}

TEST_CASE("a spectrum is moved as a whole: its shape stays, its level changes by the relative spread") {
    Material m;
    Wood w;
    w.reflectance.sd = 0.05;
    for (std::size_t i = 0; i < w.reflectance.values.size(); ++i)
        w.reflectance.values[i] = 0.2 + 0.5 * static_cast<double>(i) / 80;
    m.data = w;
    foretone::material::move(figure_named(m, "reflectance"), 2);
    const auto& moved = std::get<Wood>(m.data).reflectance.values;
    for (std::size_t i = 0; i < moved.size(); ++i)
        CHECK_THAT(moved[i], foretone::test::Near(1.1 * w.reflectance.values[i], foretone::test::identity));
}

TEST_CASE("where a figure comes from and its spread are told of a spectrum as of a number") {
    Material m;
    m.data = Pigment{};
    auto& p = std::get<Pigment>(m.data);
    p.absorption_m2_per_g.sd = 0.3;
    p.absorption_m2_per_g.from = {foretone::material::Mark::published, "a table"};
    p.density_g_per_cm3 = {5.2, 0.1, {foretone::material::Mark::practice, "a sack"}};
    const auto curve = figure_named(m, "absorption_m2_per_g"), weight = figure_named(m, "density_g_per_cm3");
    CHECK(curve.sd() == 0.3);
    CHECK(curve.from().source == "a table");
    CHECK(weight.sd() == 0.1);
    CHECK(weight.from().mark == foretone::material::Mark::practice);
}

TEST_CASE("a material rests on its one weakest figure, and on measurements if all are measured") {
    for (auto& m : one_of_each()) {
        auto all = foretone::material::figures(m);
        for (const auto& f : all) f.from().mark = foretone::material::Mark::measured;
        CHECK(foretone::material::weakest(m) == foretone::material::Mark::measured);
        for (const auto& f : all) {
            INFO(f.key);
            f.from().mark = foretone::material::Mark::practice;
            CHECK((foretone::material::weakest(m) == foretone::material::Mark::practice) == f.optical);
            f.from().mark = foretone::material::Mark::measured;
        }
    }
}
