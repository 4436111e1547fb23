#pragma once
/// What one coat of a step leaves on a square metre: the link between trade and optics.

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "foretone/schedule/mixture.hpp"
#include "foretone/schedule/wood_change.hpp"
#include "foretone/spectral/grid.hpp"

namespace foretone::schedule {

/// One coat as it is laid on, per area; where it goes is for `uptake.hpp`. Absorbances are natural-log, one pass,
/// perpendicular: mass per area times mass absorptivity.
struct Deposit {
    double wet_um = 0;
    double laid_g = 0;    ///< g/m², of which:
    double liquid_g = 0;  ///< evaporates
    double binder_g = 0;  ///< dry
    double dye_g = 0;
    double pigment_g = 0;

    material::Method method = material::Method::wipe;
    double flood = 1;            ///< √(time left wet over the usual time); a wiped coat that is kept wet longer is
                                 ///< topped up by it, and all amounts here hold the topping up
    std::optional<double> sand;  ///< paper that goes over the board first
    bool water_pop = false;      ///< bare wood is wetted and dried first
    bool scuff = false;          ///< a film below is scratched first
    std::optional<double> waited_h;  ///< since the coat before; unsaid: until it was dry
    double dry_h = 12;               ///< until this coat is dry
    bool raises_grain = false;       ///< plain water: it leaves nothing but raised grain

    double liquid_n = 1.333;     ///< index while wet
    double liquid_depth_um = 0;  ///< how deep the liquid goes at absorbency 1
    double liquid_fill = 0;      ///< most of the pores it fills while damp, 0–1

    spectral::Spectrum dye_absorbance{};
    spectral::Spectrum pigment_absorbance{};
    spectral::Spectrum pigment_scattering{};  ///< µs′·d
    bool has_pigment = false;
    double particle_um = 0;  ///< width of the pigments' grains, their mean by mass

    double binder_um = 0;  ///< dry binder, were none to soak in
    double binder_n = 1.5;
    spectral::Spectrum binder_absorption_per_mm{};
    spectral::Spectrum binder_haze_per_mm{};
    double contact = 1;  ///< share of its film that fills the cut cells below
    double stay = 0;     ///< share of the binder that stays on open wood's surface
    double binder_depth_um = 0;
    double sheen_gu60 = 0;
    bool wiped = true;                ///< the excess is taken off again
    std::optional<double> remainder;  ///< of a wiped coat with binder: of what does not go in, the share left on
    double pore_fill = 0;             ///< share of the open pores' room that it fills, 0–1
    std::shared_ptr<const WoodChange> change;  ///< what it does to the wood itself

    std::vector<std::string> notes;  ///< what was assumed

    /// Mostly soaks in: the board is seen damp, then dry. Otherwise the coat is seen as a film.
    bool soaks() const { return binder_um <= 0 || stay < 0.5; }
};

/// The deposit of one coat of `step`, the first. Throws Fault as `mix` does; for a wet film outside 1–500 µm; for
/// `flood_minutes` of a coat that is not wiped.
Deposit deposit(const Step& step, const material::Materials& materials);

/// The further coats of the same step: nothing is sanded or wetted first, and the usual wait is kept.
Deposit further_coat(const Deposit& first);

/// The same liquid laid on thinner or thicker: everything per area goes with the wet film. Throws Fault for a coat
/// outside 1–500 µm.
Deposit thicker(const Deposit& deposit, double factor);

}  // namespace foretone::schedule
