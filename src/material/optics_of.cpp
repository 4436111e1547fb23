// The coefficients that light sees, from the figures a finisher can look up.
//
// Symbols: ε molar absorptivity, L/(mol·cm), decadic · M molar mass, g/mol · p purity · a mass absorptivity, m²/g,
// natural log · A absorbance of the test liquid, 1/cm, decadic · v its binder share by volume · α absorption of the dry
// binder, 1/mm, natural log · R reading, Rb body · k1, k2 outer and inner reflection of the dry surface · c g of resin
// per mL of alcohol · ρ density of the resin, g/mL.
//
//   a = ln 10 · ε p/(10 M)            1 L/(mol·cm) = 0.1 m²/mol
//   α = ln 10 · A/(10 v)              the binder alone, as if the liquid were all binder
//   u = (R − k1)/((1 − k1)(1 − k2)),  Rb = u/(1 + k2 u)
//   v = (c/ρ)/(1 + c/ρ)               volumes added, as resin and alcohol nearly do
//
// The surface is taken off by the exact inverse of `dry_surface`: reading → body → reading is the identity to rounding.

#include "foretone/material/optics_of.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "foretone/material/gardner.hpp"

namespace foretone::material {
using spectral::Spectrum;

namespace {

// ln(λ/550 nm) on the grid.
const Spectrum& log_ratio() {
    static const Spectrum logs = [] {
        Spectrum s;
        for (std::size_t i = 0; i < s.size(); ++i) s[i] = std::log(spectral::grid_nm(i) / 550.0);
        return s;
    }();
    return logs;
}

// As an exponential of tabulated logarithms: half the work of a power, and the same to two units in the last place.
Spectrum power_law(double at_550, double exponent) {
    Spectrum s;
    const Spectrum& logs = log_ratio();
    for (std::size_t i = 0; i < s.size(); ++i) s[i] = at_550 * std::exp(-exponent * logs[i]);
    return s;
}

}  // namespace

Spectrum mass_absorptivity_m2_per_g(const Dye& dye) {
    const double scale = std::numbers::ln10 * 0.1 * dye.purity.value / dye.molar_mass_g_per_mol.value;
    Spectrum a = dye.molar_absorptivity.values;
    for (double& v : a) v = std::max(0.0, v * scale);  // a published baseline may dip below zero
    return a;
}

Spectrum absorption_per_mm(const Binder& binder) {
    if (binder.absorption_per_mm) return binder.absorption_per_mm->values;
    if (!binder.gardner) return {};
    const double share =
        binder.gardner_solids_volume_percent ? binder.gardner_solids_volume_percent->value / 100.0 : 1.0;
    Spectrum a = gardner_absorbance_per_cm(binder.gardner->value);
    for (double& v : a) v *= std::numbers::ln10 * 0.1 / share;
    return a;
}

Spectrum haze_per_mm(const Binder& binder) { return power_law(binder.haze_per_mm.value, binder.haze_exponent.value); }

Spectrum scattering_per_mm(const Wood& wood) {
    return power_law(wood.scattering_per_mm.value, wood.scattering_exponent.value);
}

std::vector<double> scattering_per_mm(const Wood& wood, std::size_t every) {
    std::vector<double> out;
    out.reserve((spectral::grid_size - 1) / every + 1);
    const double at_550 = wood.scattering_per_mm.value, exponent = wood.scattering_exponent.value;
    for (std::size_t i = 0; i < spectral::grid_size; i += every)
        out.push_back(at_550 * std::exp(-exponent * log_ratio()[i]));
    return out;
}

std::vector<double> body_reflectance(const Wood& wood, std::size_t every) {
    const double k1 = wood.surface_k1.value, k2 = wood.surface_k2.value;
    std::vector<double> body;
    body.reserve((spectral::grid_size - 1) / every + 1);
    for (std::size_t i = 0; i < spectral::grid_size; i += every) {
        // u = Rb/(1 − k2 Rb); the surface cannot have sent back more than was read.
        const double u = (wood.reflectance.values[i] - k1) / ((1 - k1) * (1 - k2));
        body.push_back(std::clamp(u / (1 + k2 * u), 1e-4, 0.9999));
    }
    return body;
}

Spectrum body_reflectance(const Wood& wood) {
    Spectrum body;
    const auto values = body_reflectance(wood, 1);
    std::copy(values.begin(), values.end(), body.begin());
    return body;
}

double dry_surface(double k1, double k2, double body) { return k1 + (1 - k1) * (1 - k2) * body / (1 - k2 * body); }

double cut_g_per_l_alcohol(double cut_lb) { return cut_lb * 453.59237 / 3.785411784; }

double cut_solids_volume(double cut_lb, double resin_density_g_per_ml) {
    const double v = cut_g_per_l_alcohol(cut_lb) / 1000.0 / resin_density_g_per_ml;
    return v / (1 + v);
}

}  // namespace foretone::material
