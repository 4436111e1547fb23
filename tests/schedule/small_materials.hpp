#pragma once
/// A few materials with round numbers, invented for the tests.

#include "foretone/material/material.hpp"

namespace foretone::test {

inline material::Figure figure(double value) { return {value, 0, {material::Mark::stated, "invented for the tests"}}; }

inline void put(material::Materials& materials, const std::string& id, const std::string& kind, material::Data data) {
    materials[id] = {id, material::kind_from(kind).value(), id, "", std::move(data), {}};
}

inline material::Liquid liquid(double n, double density) {
    return {figure(n), figure(density), figure(150), figure(0.4)};
}

inline material::Binder film(double solids_percent) {
    material::Binder b;
    b.absorption_per_mm = material::SpectrumFigure{spectral::Spectrum::constant(2), 0, {}, false, false, false};
    b.n = figure(1.5);
    b.density_g_per_ml = figure(1.0);
    b.solids_volume_percent = figure(solids_percent);
    b.haze_per_mm = figure(0);
    b.haze_exponent = figure(0);
    b.stay = figure(0.8);
    b.depth_um = figure(40);
    b.sheen_gu60 = figure(80);
    b.wet_um[1] = figure(100);
    b.coverage_m2_per_l = figure(10);
    b.carrier = "water";
    return b;
}

inline material::Materials small_materials() {
    material::Materials materials;
    put(materials, "water", "liquid", liquid(1.333, 1.0));
    put(materials, "alcohol", "liquid", liquid(1.36, 0.789));
    material::Dye dye;
    dye.molar_absorptivity.values = spectral::Spectrum::constant(20000);
    dye.molar_mass_g_per_mol = figure(400);
    dye.purity = figure(1);
    dye.density_g_per_cm3 = figure(1.5);
    dye.carriers = {"water"};
    put(materials, "dye", "dye", dye);
    put(materials, "stock", "stock", material::Stock{{{"dye", 20}}, "water", figure(1)});
    put(materials, "varnish", "film", film(50));
    material::Binder resin = film(0);
    resin.solids_volume_percent.reset();
    resin.density_g_per_ml.reset();
    resin.resin_density_g_per_ml = figure(1.15);
    resin.cut_lb = figure(2);
    resin.carrier = "alcohol";
    put(materials, "resin", "film", resin);
    material::Binder oil = film(100);
    oil.stay = figure(0.2);
    oil.depth_um = figure(150);
    oil.wet_um[0] = figure(40);
    oil.carrier.clear();
    put(materials, "oil", "oil", oil);
    material::Pigment pigment;
    pigment.absorption_m2_per_g.values = spectral::Spectrum::constant(0.5);
    pigment.scattering_m2_per_g.values = spectral::Spectrum::constant(1.0);
    pigment.density_g_per_cm3 = figure(5);
    pigment.particle_um = figure(2);
    put(materials, "pigment", "pigment", pigment);
    material::Wood wood;
    wood.reflectance.values = spectral::Spectrum::constant(0.5);
    wood.surface_k1 = figure(0.04);
    wood.surface_k2 = figure(0.25);
    wood.scattering_per_mm = figure(8);
    wood.scattering_exponent = figure(0);
    wood.n = figure(1.55);
    wood.porosity = figure(0.5);
    wood.density_g_per_cm3 = figure(0.7);
    wood.level_um = figure(5);
    wood.absorbency = figure(1);
    put(materials, "wood", "wood", wood);
    return materials;
}

}  // namespace foretone::test
