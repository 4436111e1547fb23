#pragma once
/// The state of a board while a schedule is put on it: what has soaked into the wood and what lies on it.

#include <memory>
#include <vector>

#include "foretone/material/material.hpp"
#include "foretone/schedule/deposit.hpp"
#include "foretone/schedule/uptake.hpp"

namespace foretone::appearance {

/// Where on a spot something lies: all over, on the flats, in open pores.
enum class Where { all, flats, pores };

/// What a color in the wood is, to what takes it out again.
enum class Stuff { other, dye, iron };

/// Something spread evenly through the wood from the surface to a depth. Optical depths are per pass, natural log.
struct Soaked {
    double depth_um = 0;
    spectral::Spectrum absorbance{};  ///< µa·depth added
    spectral::Spectrum scattering{};  ///< µs′·depth added (pigment)
    double fill = 0;                  ///< share of the pores it fills, 0–1
    double fill_n = 1;                ///< its index
    Where where = Where::all;
    Stuff stuff = Stuff::other;
    double keeps = 1;  ///< share of the wood's own absorption that is left here
};

/// A film on the wood.
struct Coat {
    double thickness_um = 0;
    double n = 1.5;
    spectral::Spectrum absorption_per_mm{};
    spectral::Spectrum haze_per_mm{};  ///< µs′
    bool loose = false;                ///< color without binder that dried on top: it rubs off until it is coated
    double contact = 1;                ///< share of it that fills the cut cells below, no air between
};

/// One coat of a board's past, so that any spot of it can be worked out by the same account.
struct Laid {
    std::shared_ptr<const schedule::Deposit> coat;
    bool wet = false;  ///< the last of a board seen damp
};

/// A board between two steps, at its mean spot or (`at_uptake`) at one that takes more or less.
struct Board {
    std::vector<Soaked> zone;
    std::vector<Coat> coats;    ///< from the wood up
    double film_um = 0;         ///< total dry film, what levels the sanded surface
    double sheen_gu60 = 0;      ///< of the uppermost film
    bool under_liquid = false;  ///< a liquid film covers everything

    schedule::Readied ready;    ///< how the bare wood was sanded and wetted
    schedule::Account account;  ///< of the last coat; zero for bare wood
    schedule::UptakeLaw law;
    double uptake = 1;        ///< of this spot over the wood's mean
    double pore = 0;          ///< of this spot, what lies in open pores, 0–1; the mean spot's is `wood`'s
    double scratched = 0;     ///< share of the film that was scuffed and not levelled since
    double pores_filled = 0;  ///< share of the open pores' room that filler holds, 0–1
    double tannin_given = 0;  ///< by treatments, beside the wood's own, % by weight

    std::vector<Laid> past;   ///< every coat so far
    schedule::Readied first;  ///< how the wood was readied before any of them
    schedule::Ground wood;    ///< what the wood's file says of it; of use once there is a past
    double last_film_um = 0, last_fill = 0, last_dry_h = 0;  ///< what the last coat added, and its drying time

    /// Share of the area that the film covers smoothly: 1 − exp(−film/level), 1 under liquid. The rest still looks like
    /// dry, sanded wood.
    double covered(const material::Wood& wood) const;

    /// Film that levels the wood as it was sanded, µm.
    double level_um(const material::Wood& wood) const;
};

/// The board after one coat has dried: what goes in, what stays up and what is wiped off as schedule/uptake.hpp works
/// it out for the spot. What soaks in is spread evenly over its depth; color goes where its binder goes; dye without
/// binder goes as deep as its liquid carries it, and what finds no room dries on top; pigment lodges in the outermost
/// 20 µm, in grooves of the flats and in open pores.
Board after_drying(const Board& before, const schedule::Deposit& deposit, const material::Wood& wood);

/// The same, of a coat that the board's past keeps as it is.
Board after_drying(const Board& before, std::shared_ptr<const schedule::Deposit> deposit, const material::Wood& wood);

/// The same board while the coat's liquid is still there: its pores filled as far as the liquid reaches, a smooth
/// liquid film over all.
Board while_wet(const Board& before, const schedule::Deposit& deposit, const material::Wood& wood);

/// All coats of one step, dried: the first as `deposit` says, further ones after the usual wait.
Board after_coats(Board board, const schedule::Deposit& deposit, int coats, const material::Wood& wood);

}  // namespace foretone::appearance
