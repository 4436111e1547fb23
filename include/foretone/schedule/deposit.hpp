#pragma once
/// What one coat of a step leaves on a square metre: the link between trade and optics.

#include <string>
#include <vector>

#include "foretone/schedule/mixture.hpp"
#include "foretone/spectral/grid.hpp"

namespace foretone::schedule {

/// One coat, per area. Absorbances are natural-log, one pass, perpendicular: mass per area times mass absorptivity.
struct Deposit {
    double wet_um = 0;

    double liquid_n = 1.333;     ///< index while wet
    double liquid_depth_um = 0;  ///< how deep the liquid goes at absorbency 1
    double liquid_fill = 0;      ///< most of the pores it fills while damp, 0–1

    spectral::Spectrum dye_absorbance{};
    spectral::Spectrum pigment_absorbance{};
    spectral::Spectrum pigment_scattering{};  ///< µs′·d
    bool has_pigment = false;

    double binder_um = 0;  ///< dry binder, were none to soak in
    double binder_n = 1.5;
    spectral::Spectrum binder_absorption_per_mm{};
    spectral::Spectrum binder_haze_per_mm{};
    double contact = 1;  ///< share of its film that fills the cut cells below
    double stay = 0;     ///< share of the binder that stays on open wood's surface
    double binder_depth_um = 0;
    double sheen_gu60 = 0;
    bool wiped = false;  ///< wiped on, the excess wiped off: only `stay` of the binder is left as film

    std::vector<std::string> notes;  ///< what was assumed

    /// Mostly soaks in: the board is seen damp, then dry. Otherwise the coat is seen as a film.
    bool soaks() const { return binder_um <= 0 || stay < 0.5; }
};

/// The deposit of one coat of `step`. Throws Fault as `mix` does, and for a wet film outside 1–500 µm.
Deposit deposit(const Step& step, const material::Shelf& shelf);

}  // namespace foretone::schedule
