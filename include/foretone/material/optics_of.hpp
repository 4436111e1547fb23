#pragma once
/// From the materials' figures to the coefficients that the optics room computes with.

#include <vector>

#include "foretone/material/material.hpp"

namespace foretone::material {

/// Natural-log absorption of a dye powder as sold, m² per g:
/// a = ln 10 · ε · purity / (10 M), ε in L/(mol·cm) = 0.1 m²/mol.
spectral::Spectrum mass_absorptivity_m2_per_g(const Dye& dye);

/// Absorption coefficient of the dry binder, 1/mm, natural log: from its spectrum, or from its Gardner number by
/// α = ln 10 · A(λ)/10 / v with A per cm of the test liquid and v its binder share by volume.
spectral::Spectrum absorption_per_mm(const Binder& binder);

/// Reduced scattering of the dry film, 1/mm.
spectral::Spectrum haze_per_mm(const Binder& binder);

/// Kubelka–Munk scattering of the wood, 1/mm.
spectral::Spectrum scattering_per_mm(const Wood& wood);

/// Reflectance of the wood's body: the reading with the dry surface taken off,
/// R = k1 + (1−k1)(1−k2) Rb/(1−k2 Rb), solved for Rb and kept within 1e-4 … 0.9999.
spectral::Spectrum body_reflectance(const Wood& wood);

/// Both at every `every`-th wavelength of the grid alone, from 380 nm; `every` ≥ 1 divides 80.
std::vector<double> scattering_per_mm(const Wood& wood, std::size_t every);
std::vector<double> body_reflectance(const Wood& wood, std::size_t every);

/// The forward form of the same: a dry, rough surface over a body.
double dry_surface(double k1, double k2, double body);

/// Grams of resin per litre of alcohol in a cut of `cut_lb` lb per US gal: 453.59237 / 3.785411784 each.
double cut_g_per_l_alcohol(double cut_lb);

/// Dry volume share of a resin solution of that cut: v/(1 + v), v = grams per mL of alcohol over the resin's density.
double cut_solids_volume(double cut_lb, double resin_density_g_per_ml);

}  // namespace foretone::material
