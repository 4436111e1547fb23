#pragma once
/// What makes a wood's face recognisable: rings, pores, rays, streaks, curl, and how unevenly it drinks. Lengths are on
/// the tree's cross-section or along its axis, so that any cut of a board follows from them.

#include <array>
#include <string_view>

#include "foretone/material/figure.hpp"

namespace foretone::material {

/// How the open cells lie in a ring (IAWA 1989, features 3–5; softwoods have resin canals or nothing).
enum class Pores { ring, semi_ring, diffuse, resin, none };
inline constexpr std::array<std::string_view, 5> pore_words = {"ring-porous", "semi-ring-porous", "diffuse-porous",
                                                               "resin-canals", "none"};

/// Figures ending in `_shade` are differences of ln(K/S), the optical density of the wood's body: 0.7 doubles the
/// absorption.
struct Grain {
    Pores pores = Pores::diffuse;
    Provenance pores_from;

    Figure ring_mm;         ///< width of a growth ring
    Figure ring_variation;  ///< one standard deviation of that width from ring to ring, relative
    Figure ring_waver_mm;   ///< how far a ring strays from a circle, one standard deviation
    Figure late_share;      ///< share of the ring that is latewood, 0–1
    Figure late_abrupt;     ///< 0: passes gradually into latewood; 1: at a sharp edge
    Figure late_shade;      ///< latewood against earlywood, without pores
    Figure late_uptake;     ///< absorbency of latewood over earlywood's
    Figure line_mm;         ///< width of the last line of a ring
    Figure line_shade;      ///< that line against the wood beside it; below 0 paler

    Figure pore_um;             ///< tangential diameter of the large pores (earlywood pores; resin canals)
    Figure pore_per_mm2;        ///< of cross-section, in the zone where the large pores lie
    Figure pore_zone;           ///< share of the ring which that zone takes, 0–1
    Figure pore_mm;             ///< length of the groove that a large pore leaves on a face
    Figure small_pore_um;       ///< tangential diameter of the small pores (latewood pores)
    Figure small_pore_per_mm2;  ///< of cross-section, beyond that zone
    Figure pore_shade;          ///< an open pore against the wood beside it
    Figure pore_uptake;         ///< absorbency at a pore over the wood's

    Figure ray_um;         ///< width of the rays that are seen
    Figure ray_mm;         ///< their height along the grain
    Figure ray_per_mm;     ///< how many are crossed on a millimetre of tangent
    Figure ray_shade;      ///< fleck: a ray lying in the face, against the wood
    Figure ray_end_shade;  ///< a ray seen end on, against the wood

    Figure fibre_shade;    ///< fine streaks along the grain, one standard deviation
    Figure streak_shade;   ///< broad streaks of color along the rings, one standard deviation
    Figure streak_mm;      ///< their width
    Figure drift_shade;    ///< slow drift of color over a board, one standard deviation
    Figure speck_per_dm2;  ///< dark specks (gum, pith flecks), on a face
    Figure speck_mm;       ///< their length

    Figure slope_deg;   ///< wandering of the fibres in the board, one standard deviation
    Figure curl_deg;    ///< curl: rise and fall of the fibres along the board, one standard deviation
    Figure curl_mm;     ///< from crest to crest
    Figure ribbon_deg;  ///< interlocked grain: twist of the fibres, one standard deviation
    Figure ribbon_mm;   ///< from one twist to the same again, along the radius
    Figure blotch;      ///< uneven drinking: one standard deviation of ln(absorbency)
    Figure blotch_mm;   ///< size of a blotch across the grain
    Figure end_uptake;  ///< absorbency of end grain over face grain
};

/// A plain, fine-pored wood: used where a wood does not tell its grain. All figures are marked practice.
Grain plain_grain();

/// Share of a flat face that lies in open pores, 0–1: by Delesse's principle (1847) their share of the cross-section,
/// π d²/4 times their number, over the ring as their number and size change in it; small pores count ¾. 0 without
/// pores.
double open_pore_share(const Grain& grain);

}  // namespace foretone::material
