#pragma once
/// How much of a liquid wood draws in: capillary suction, what a seal leaves of it, and the room in the pores.

#include <string>
#include <vector>

#include "foretone/material/figure.hpp"

namespace foretone::schedule {

/// Grit that a wood file's figures are given for.
inline constexpr double usual_grit = 220;
inline constexpr double least_grit = 40, most_grit = 1000;  ///< papers that are used on wood

/// Minutes that a wiped coat stands before its excess is wiped off, unless a step says otherwise (common practice).
inline constexpr double usual_flood_min = 2;       ///< dyes and other thin liquids
inline constexpr double usual_oil_flood_min = 15;  ///< oils

/// Figures that rest on common practice and belong to no single material. Each has a spread (`uptake_figures`).
struct UptakeLaw {
    double suction_g_per_m2 = 100;  ///< what bare wood of absorbency 1 draws in during `usual_flood_min`
    double closing = 1.25;          ///< film that closes the pores' mouths by 1 − 1/e, over the wood's leveling film
    double plug_most = 2.5;         ///< resistance of a wood whose mouths are full, over its own when bare
    double plug_half = 0.05;        ///< share of the outer pores filled that makes half of it
    double reach = 3;               ///< how deep a liquid goes, over how deep it carries a dye
    double residue_um = 0.05;       ///< wet film that stays in the texture of a smooth film after wiping
    double scratch_residue_um = 0.5;  ///< the same where it was scuffed
    double brushed_left = 0.5;  ///< of what a brush or roller lays on and the wood does not take: share left there
    double spotted = 0.02;      ///< share of a film that dye without binder covers where it dries in spots
    double lodging = 0.5;       ///< wet stain held in scratches and pores after wiping, over the leveling film
    double damp_bar = 0.3;      ///< share of its suction that wood loses while a liquid still stands in it

    // How the wood was readied.
    double scratch_um = 3;        ///< of the leveling film, what scratches of 220 paper ask for
    double scratch_power = 0.7;   ///< scratches are as deep as (220/grit) to this
    double raised_um = 1;         ///< film that raised grain asks for beyond that
    double burnish_power = 0.15;  ///< wood takes (220/grit) to this of what it takes after 220 paper
    double raised_taking = 0.15;  ///< what wood with raised grain takes more, as a share

    // Where wiped pigment stays.
    double groove_width = 4;     ///< mean width of scratches and cut cells, over the leveling film
    double grooved_share = 0.4;  ///< of the flats' area, what lies in scratches and cut cells
};

/// When a figure tells: always, after paper other than 220 or raised grain, under pigment.
enum class Tells { always, readied, pigment };

/// One of these figures: its name, unit, spread, source, valid range.
struct UptakeFigure {
    std::string name;
    std::string unit;
    double UptakeLaw::*at;
    double sd = 0;
    double low = 0, high = 0;
    material::Provenance from;
    Tells tells = Tells::always;
};
const std::vector<UptakeFigure>& uptake_figures();

/// Washburn (1921): a liquid that wets has entered a pore of radius r by √(γ r cosθ t/2η); over all pores of a wood by
/// `law.suction_g_per_m2` · absorbency · √(t/2 min), g/m². `minutes` ≥ 0.
double drawn_g_per_m2(const UptakeLaw& law, double absorbency, double minutes);

/// Share of the pores' mouths that a film of so many µm leaves open: exp(−film/(closing · level)).
double open_share(const UptakeLaw& law, double film_um, double level_um);

/// Resistance that binder in the pores adds, over the bare wood's own; 0 for none. `fill` is the share of the outer
/// pores that it fills.
double plug(const UptakeLaw& law, double fill);

/// Suction of a spot, over that of the bare mean spot: resistances in a row, the wood's 1/`uptake`, the plug's and that
/// of a film with holes, (1 − open)/open. Films lie level, and a spot that takes more took more of the seal, too
/// (ground.hpp). So a seal makes suction less and, over spots, flatter in at least the same measure: for one plug
/// everywhere d ln g/d ln uptake = g/uptake.
double conductance(double open, double plug, double uptake);

}  // namespace foretone::schedule
