#pragma once
/// What one coat of a treatment does to the wood itself.

#include "foretone/material/material.hpp"
#include "foretone/spectral/grid.hpp"

namespace foretone::schedule {

/// As the treatment's file says, in plain numbers.
struct WoodChange {
    material::Needs needs = material::Needs::nothing;
    bool leaves_iron = false;
    double takes_wood = 0, floor = 0;  ///< share of the wood's own absorption, and what no coat takes
    double takes_dye = 0, takes_iron = 0;
    double gives_tannin_percent = 0;
    double half_tannin_percent = 0;        ///< 0: what it adds needs no tannin
    spectral::Spectrum adds_absorbance{};  ///< natural log, one pass of its depth
    double depth_um = 0;                   ///< at absorbency 1

    /// Share, 0–1, of the color it can make that it makes on wood of so much tannin: T/(T + half), as the reagent runs
    /// out where tannin does not.
    double made(double tannin_percent) const;
    /// Share of the wood's own absorption left after a coat that finds `left` of it and goes in by `share`:
    /// floor + (left − floor)(1 − takes · share), never more than it found.
    double left_after(double left, double share) const;
};

WoodChange wood_change(const material::Treatment& treatment);

/// Tannin of a wood, % by weight: its file's, or `material::usual_tannin_percent`.
double tannin_percent(const material::Wood& wood);

}  // namespace foretone::schedule
