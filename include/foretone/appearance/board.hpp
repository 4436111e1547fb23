#pragma once
/// The state of a board while a schedule is put on it: what has soaked into the wood and what lies on it.

#include <vector>

#include "foretone/material/material.hpp"
#include "foretone/schedule/deposit.hpp"

namespace foretone::appearance {

/// Something spread evenly through the wood from the surface to a depth. Optical depths are per pass, natural log.
struct Soaked {
    double depth_um = 0;
    spectral::Spectrum absorbance{};  ///< µa·depth added
    spectral::Spectrum scattering{};  ///< µs′·depth added (pigment)
    double fill = 0;                  ///< share of the pores it fills, 0–1
    double fill_n = 1;                ///< its index
};

/// A film on the wood.
struct Coat {
    double thickness_um = 0;
    double n = 1.5;
    spectral::Spectrum absorption_per_mm{};
    spectral::Spectrum haze_per_mm{};  ///< µs′
    double contact = 1;                ///< share of it that fills the cut cells below, no air between
};

/// A board between two steps.
struct Board {
    std::vector<Soaked> zone;
    std::vector<Coat> coats;    ///< from the wood up
    double film_um = 0;         ///< total dry film, what levels the sanded surface
    double sheen_gu60 = 0;      ///< of the uppermost film
    bool under_liquid = false;  ///< a liquid film covers everything

    /// Share of the area that the film covers smoothly: 1 − exp(−film/level), 1 under liquid. The rest still looks like
    /// dry, sanded wood.
    double covered(const material::Wood& wood) const;
};

/// The board after one coat has dried.
///
/// A liquid goes where the wood is still open (1 − covered). Of the binder that meets open wood the share `stay`
/// remains on the surface, the rest soaks in as far as the pores hold it; what was wiped on and can do neither is wiped
/// off. Dye without binder soaks in with its liquid; on a sealed surface it dries on top. Color goes where its binder
/// goes. Pigment without binder lodges in the outermost 20 µm.
Board after_drying(const Board& before, const schedule::Deposit& deposit, const material::Wood& wood);

/// The same board while the coat's liquid is still there: its pores filled as far as the liquid reaches, a smooth
/// liquid film over all.
Board while_wet(const Board& before, const schedule::Deposit& deposit, const material::Wood& wood);

}  // namespace foretone::appearance
