/// The dry surface of wood, power laws and cuts, against what they are made of.

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

#include "foretone/material/optics_of.hpp"
#include "support/tolerance.hpp"

using foretone::test::closed_form;
using foretone::test::identity;
using foretone::test::Near;

namespace {

/// Light that goes in, comes back from the body, is turned back by the surface, comes back again ...: the sum of what
/// leaves at each turn.
double surface_by_turns(double k1, double k2, double body) {
    double out = k1, inside = (1 - k1) * body;
    for (int turn = 0; turn < 2000; ++turn) {
        out += inside * (1 - k2);
        inside *= k2 * body;
    }
    return out;
}

foretone::material::Wood wood_read_as(double k1, double k2, double reflectance) {
    foretone::material::Wood w;
    w.surface_k1.value = k1;
    w.surface_k2.value = k2;
    w.reflectance.values = foretone::spectral::Spectrum::constant(reflectance);
    return w;
}

}  // namespace

TEST_CASE("the dry surface is the sum of all turns of light between it and the body") {
    std::mt19937 seeded(11);
    std::uniform_real_distribution<double> k1(0, 0.2), k2(0, 0.7), body(0, 1);
    for (int i = 0; i < 200; ++i) {
        const double a = k1(seeded), b = k2(seeded), r = body(seeded);
        INFO("k1 " << a << ", k2 " << b << ", body " << r);
        CHECK_THAT(foretone::material::dry_surface(a, b, r), Near(surface_by_turns(a, b, r), closed_form));
    }
}

TEST_CASE("a black body under a surface reads as the surface alone, a white one as white, and no surface is none") {
    for (const double k2 : {0.0, 0.25, 0.6}) {
        CHECK_THAT(foretone::material::dry_surface(0.04, k2, 0), Near(0.04, identity));
        CHECK_THAT(foretone::material::dry_surface(0.04, k2, 1), Near(1, identity));  // nothing absorbs
    }
    CHECK_THAT(foretone::material::dry_surface(0, 0, 0.37), Near(0.37, identity));
}

TEST_CASE("more inner reflection darkens, more outer reflection brightens") {
    for (const double body : {0.1, 0.4, 0.8}) {
        CHECK(foretone::material::dry_surface(0.04, 0.5, body) < foretone::material::dry_surface(0.04, 0.2, body));
        CHECK(foretone::material::dry_surface(0.08, 0.25, body) > foretone::material::dry_surface(0.04, 0.25, body));
    }
}

TEST_CASE("the body under a reading is found again for every surface that wood can have") {
    std::mt19937 seeded(12);
    std::uniform_real_distribution<double> k1(0, 0.2), k2(0, 0.7), body(0.01, 0.99);
    for (int i = 0; i < 200; ++i) {
        const double a = k1(seeded), b = k2(seeded), r = body(seeded);
        const auto w = wood_read_as(a, b, foretone::material::dry_surface(a, b, r));
        INFO("k1 " << a << ", k2 " << b);
        CHECK_THAT(foretone::material::body_reflectance(w)[17], Near(r, closed_form));
    }
}

TEST_CASE("a reading as bright as white leaves a body just short of white") {
    CHECK(foretone::material::body_reflectance(wood_read_as(0.04, 0.25, 1))[5] == 0.9999);
}

TEST_CASE("coefficients follow their power of the wavelength between any two wavelengths") {
    foretone::material::Wood w;
    foretone::material::Binder b;
    for (const double exponent : {-1.0, 0.0, 0.7, 2.5}) {
        w.scattering_per_mm.value = 12;
        w.scattering_exponent.value = exponent;
        b.haze_per_mm.value = 0.4;
        b.haze_exponent.value = exponent;
        const auto s = foretone::material::scattering_per_mm(w), h = foretone::material::haze_per_mm(b);
        for (std::size_t i = 0; i < s.size(); i += 7)
            for (std::size_t j = 0; j < s.size(); j += 9) {
                const double ratio = foretone::spectral::grid_nm(j) / foretone::spectral::grid_nm(i);
                CHECK_THAT(s[i] / s[j], Near(std::pow(ratio, exponent), closed_form));
                CHECK_THAT(h[i] / h[j], Near(std::pow(ratio, exponent), closed_form));
            }
        CHECK_THAT(h[34], Near(0.4, identity));  // 550 nm
    }
}

TEST_CASE("a dye absorbs in proportion to its purity and absorptivity, and less for a heavier molecule") {
    foretone::material::Dye dye;
    dye.molar_absorptivity.values = foretone::spectral::Spectrum::constant(30000);
    dye.molar_mass_g_per_mol.value = 500;
    dye.purity.value = 0.4;
    const double one = foretone::material::mass_absorptivity_m2_per_g(dye)[20];
    dye.purity.value = 0.8;
    CHECK_THAT(foretone::material::mass_absorptivity_m2_per_g(dye)[20] / one, Near(2, identity));
    dye.molar_mass_g_per_mol.value = 1000;
    CHECK_THAT(foretone::material::mass_absorptivity_m2_per_g(dye)[20] / one, Near(1, identity));
    for (double& v : dye.molar_absorptivity.values) v *= 3;
    CHECK_THAT(foretone::material::mass_absorptivity_m2_per_g(dye)[20] / one, Near(3, identity));
}

TEST_CASE("a measured absorption stands before a Gardner number, and a number without its solids is of pure binder") {
    foretone::material::Binder b;
    b.gardner = foretone::material::Figure{12, 0, {}};
    const auto pure = foretone::material::absorption_per_mm(b);
    b.gardner_solids_volume_percent = foretone::material::Figure{25, 0, {}};
    const auto diluted = foretone::material::absorption_per_mm(b);
    for (std::size_t i = 0; i < pure.size(); i += 10) CHECK_THAT(diluted[i] / pure[i], Near(4, identity));
    b.absorption_per_mm.emplace();
    b.absorption_per_mm->values = foretone::spectral::Spectrum::constant(0.5);
    CHECK(foretone::material::absorption_per_mm(b) == foretone::spectral::Spectrum::constant(0.5));
}

TEST_CASE("a cut holds as much resin as was weighed in: volumes add") {
    for (const double cut : {0.5, 1.0, 2.0, 3.0, 5.0})
        for (const double density : {1.02, 1.15, 1.3}) {
            const double resin_l = foretone::material::cut_g_per_l_alcohol(cut) / 1000 / density;
            INFO(cut << " lb of resin of density " << density);
            CHECK_THAT(foretone::material::cut_solids_volume(cut, density), Near(resin_l / (resin_l + 1), identity));
        }
    // A pound is 453.59237 g (international yard and pound agreement, 1959), a US gallon 231 cubic inches.
    CHECK_THAT(foretone::material::cut_g_per_l_alcohol(1), Near(453.59237 / (231 * 0.0254 * 0.0254 * 25.4), 1e-9));
}
