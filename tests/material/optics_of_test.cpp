#include <catch2/catch.hpp>
#include <cmath>

#include "foretone/material/optics_of.hpp"
#include "support/table.hpp"
#include "support/tolerance.hpp"

using namespace foretone;
using namespace foretone::material;
using namespace foretone::test;

TEST_CASE("a dye's molar absorptivity becomes natural-log square metres per gram") {
    Dye dye;
    dye.molar_absorptivity.values = spectral::Spectrum::constant(20000);
    dye.molar_mass_g_per_mol.value = 400;
    dye.purity.value = 0.5;
    // 1 L/(mol cm) = 0.1 m²/mol: 20000 · 0.1 / 400 = 5 m²/g decadic, half of it dye, times ln 10.
    CHECK_THAT(mass_absorptivity_m2_per_g(dye)[40], Near(2.5 * std::log(10.0), identity));
    dye.molar_absorptivity.values = spectral::Spectrum::constant(-5);  // a published baseline below zero
    CHECK(mass_absorptivity_m2_per_g(dye)[0] == 0);
}

TEST_CASE("the dry surface taken off and put on again gives the reading") {
    Wood wood;
    wood.surface_k1.value = 0.04;
    wood.surface_k2.value = 0.25;
    double worst = 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i)
        wood.reflectance.values[i] = 0.05 + 0.85 * static_cast<double>(i) / 80;
    const auto body = body_reflectance(wood);
    for (std::size_t i = 0; i < body.size(); ++i)
        worst = worst_of(worst, std::abs(dry_surface(0.04, 0.25, body[i]) - wood.reflectance.values[i]));
    CHECK_THAT(worst, Near(0, identity));
}

TEST_CASE("a reading darker than its own surface leaves a body that is nearly black, not a negative one") {
    Wood wood;
    wood.surface_k1.value = 0.05;
    wood.surface_k2.value = 0.25;
    wood.reflectance.values = spectral::Spectrum::constant(0.02);
    CHECK(body_reflectance(wood)[0] == 1e-4);
}

TEST_CASE("pound cuts: grams per litre and dry volume share") {
    // Computed from the definition (lb of flakes per US gallon of alcohol) with a flake density of 1.15 g/mL; four
    // digits.
    for (const auto& row : table("shellac_pound_cut.csv")) {
        const double cut = row.number("lb_per_USgal_solvent");
        INFO(cut << " lb");
        CHECK_THAT(cut_g_per_l_alcohol(cut), Near(row.number("g_per_L_solvent"), 0.05));
        CHECK_THAT(100 * cut_solids_volume(cut, 1.15), Near(row.number("vol_solids_pct"), 0.005));
        CHECK_THAT(50 * cut_solids_volume(cut, 1.15), Near(row.number("dry_um_from_50um_wet"), 0.005));
        CHECK_THAT(100 * cut_solids_volume(cut, 1.15), Near(row.number("dry_um_from_100um_wet"), 0.005));
    }
}

TEST_CASE("scattering and haze fall with wavelength as their exponents say") {
    Wood wood;
    wood.scattering_per_mm.value = 8;
    wood.scattering_exponent.value = 0.5;
    const auto s = scattering_per_mm(wood);
    CHECK_THAT(s[34], Near(8, identity));  // 550 nm
    CHECK_THAT(s[0], Near(8 * std::sqrt(550.0 / 380.0), closed_form));
    Binder b;
    b.haze_per_mm.value = 0.3;
    b.haze_exponent.value = 4;
    CHECK_THAT(haze_per_mm(b)[80], Near(0.3 * std::pow(550.0 / 780.0, 4), closed_form));
}

TEST_CASE("a binder without a color is colorless") { CHECK(absorption_per_mm(Binder{}) == spectral::Spectrum{}); }

TEST_CASE("a stated spectrum goes before a Gardner number, and thinner test liquid means a stronger binder") {
    Binder b;
    b.gardner = Figure{10, 1, {}};
    b.gardner_solids_volume_percent = Figure{50, 1, {}};
    const auto half = absorption_per_mm(b);
    b.gardner_solids_volume_percent = Figure{25, 1, {}};
    const auto quarter = absorption_per_mm(b);
    for (std::size_t i = 0; i < half.size(); ++i) CHECK_THAT(quarter[i] / half[i], Near(2, closed_form));
    b.gardner_solids_volume_percent.reset();
    CHECK_THAT(absorption_per_mm(b)[10] / half[10], Near(0.5, closed_form));
    b.absorption_per_mm = SpectrumFigure{spectral::Spectrum::constant(3), 0, {}, false, false, false};
    CHECK(absorption_per_mm(b)[40] == 3);
}

TEST_CASE("a paler reading is a paler body, and a surface that reflects nothing leaves the reading as the body") {
    Wood wood;
    wood.surface_k1.value = 0.04;
    for (const double k2 : {0.0, 0.25, 0.5}) {
        wood.surface_k2.value = k2;
        double before = 0;
        for (double r = 0.05; r < 0.95; r += 0.05) {
            wood.reflectance.values = spectral::Spectrum::constant(r);
            const double body = body_reflectance(wood)[20];
            CHECK(body > before);
            CHECK(body < 1);
            before = body;
        }
    }
    wood.surface_k1.value = wood.surface_k2.value = 0;
    wood.reflectance.values = spectral::Spectrum::constant(0.37);
    CHECK_THAT(body_reflectance(wood)[20], Near(0.37, identity));
    CHECK_THAT(dry_surface(0.04, 0.3, 1), Near(1, identity));  // nothing absorbs: all comes back
    CHECK_THAT(dry_surface(0.04, 0.3, 0), Near(0.04, identity));
}

TEST_CASE("a heavier cut has more solids, never as much as the resin alone") {
    double before = 0;
    for (double cut = 0.1; cut < 50; cut *= 1.5) {
        const double v = cut_solids_volume(cut, 1.15);
        CHECK(v > before);
        CHECK(v < 1);
        before = v;
    }
    CHECK_THAT(cut_solids_volume(1e-9, 1.15) / (cut_g_per_l_alcohol(1e-9) / 1150), Near(1, closed_form));
}

TEST_CASE("twice the purity or half the molar mass is twice the strength") {
    Dye dye;
    dye.molar_absorptivity.values = spectral::Spectrum::constant(12000);
    dye.molar_mass_g_per_mol.value = 350;
    dye.purity.value = 0.4;
    const double once = mass_absorptivity_m2_per_g(dye)[30];
    dye.purity.value = 0.8;
    CHECK_THAT(mass_absorptivity_m2_per_g(dye)[30], Near(2 * once, identity));
    dye.molar_mass_g_per_mol.value = 175;
    CHECK_THAT(mass_absorptivity_m2_per_g(dye)[30], Near(4 * once, identity));
}
