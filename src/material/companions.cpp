// Which figures go together, and why: one of a pair taken from elsewhere leaves the other without its meaning.

#include "foretone/material/companions.hpp"

#include <array>

namespace foretone::material {
namespace {

constexpr std::array wood_pairs = {
    Companion{"reflectance", "surface_k1", "the dry surface is taken off the reading with it"},
    Companion{"reflectance", "surface_k2", "the dry surface is taken off the reading with it"},
    Companion{"surface_k1", "surface_k2", "they are the two sides of one surface"},
    Companion{"surface_k2", "surface_k1", "they are the two sides of one surface"},
    Companion{"scattering_per_mm", "scattering_exponent", "the first is the scattering at 550 nm only"},
    Companion{"scattering_exponent", "scattering_per_mm", "it says how that scattering falls with the wavelength"},
    Companion{"porosity", "surface_k2", "a plane of denser wood holds more cell wall, which reflects more inwards"},
    Companion{"n", "surface_k2", "how much cell wall the dry surface holds is worked out from both"},
    Companion{"surface_k2", "n", "how much cell wall the dry surface holds is worked out from both"},
    Companion{"density_g_per_cm3", "porosity", "a denser wood has fewer pores: about 1 - density/1.5"},
    Companion{"porosity", "density_g_per_cm3", "a denser wood has fewer pores: about 1 - density/1.5"},
};

constexpr std::array dye_pairs = {
    Companion{"molar_absorptivity", "molar_mass_g_per_mol", "strength by weight is the one over the other"},
    Companion{"molar_absorptivity", "purity", "strength by weight is the one times the other"},
    Companion{"molar_mass_g_per_mol", "molar_absorptivity", "strength by weight is the one over the other"},
};

constexpr std::array pigment_pairs = {
    Companion{"absorption_m2_per_g", "scattering_m2_per_g", "both go with the size of the particles"},
    Companion{"scattering_m2_per_g", "absorption_m2_per_g", "both go with the size of the particles"},
};

constexpr std::array binder_pairs = {
    Companion{"gardner", "gardner_solids_volume_percent",
              "the number is that of the liquid in the tube, of so much binder"},
    Companion{"gardner_solids_volume_percent", "gardner", "it belongs to the liquid that number was read on"},
    Companion{"solids_volume_percent", "density_g_per_ml", "both are of the liquid as supplied"},
    Companion{"density_g_per_ml", "solids_volume_percent", "both are of the liquid as supplied"},
    Companion{"resin_density_g_per_ml", "cut_lb", "the solids of a cut follow from both"},
    Companion{"depth_um", "stay", "what does not stay up soaks in as deep as this"},
    Companion{"haze_per_mm", "haze_exponent", "the first is the haze at 550 nm only"},
    Companion{"haze_exponent", "haze_per_mm", "it says how that haze falls with the wavelength"},
    Companion{"stay", "depth_um", "what does not stay up soaks in as deep as this"},
    Companion{"wet_um", "coverage_m2_per_l",
              "what a coat takes and how far a litre goes are one thing; amounts to buy go by this"},
    Companion{"coverage_m2_per_l", "wet_um",
              "what a coat takes and how far a litre goes are one thing; colors go by this"},
};

constexpr std::array liquid_pairs = {
    Companion{"depth_um", "fill", "how deep it goes and how full the pores get are one thing"},
    Companion{"fill", "depth_um", "how deep it goes and how full the pores get are one thing"},
};

template <class T>
std::span<const Companion> pairs_of(const T&) {
    return {};  // the strength of a stock goes with nothing
}
std::span<const Companion> pairs_of(const Wood&) { return wood_pairs; }
std::span<const Companion> pairs_of(const Dye&) { return dye_pairs; }
std::span<const Companion> pairs_of(const Pigment&) { return pigment_pairs; }
std::span<const Companion> pairs_of(const Binder&) { return binder_pairs; }
std::span<const Companion> pairs_of(const Liquid&) { return liquid_pairs; }

}  // namespace

std::span<const Companion> companions(const Data& data) {
    return std::visit([](const auto& d) { return pairs_of(d); }, data);
}

}  // namespace foretone::material
