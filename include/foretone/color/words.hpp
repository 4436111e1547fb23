#pragma once
/// A color difference in a finisher's words.

#include <string>

#include "foretone/color/ciecam16.hpp"
#include "foretone/color/lab.hpp"

namespace foretone::color {

/// Below this ΔE00 a difference is called not visible, whatever its direction.
inline constexpr double visible_de00 = 0.5;

/// Steps at which a direction is named: not at all below the first, "slightly" up to the second, plain up to the third,
/// "much" from there on. Of lightness, of chroma and of hue (ΔH*, the distance across), in CIELAB units.
inline constexpr double word_slightly = 0.5, word_plain = 1.5, word_much = 5.0;

/// Below this chroma a color is so grey that its hue says nothing.
inline constexpr double grey_chroma = 6;

/// Up to this mean chroma a change of color is told as a cast (bare woods, browns), above it as hue and strength (dyes,
/// stains, toned films).
inline constexpr double cast_chroma = 30;

/// What changes from `from` to `to`, joined by commas: paler or darker (ΔL*), then the color at equal lightness.
///   - A cast, by the direction of Δa*, Δb*: warmer or cooler (to and from orange), yellower, redder, and their
///     opposites, which are "less yellow" and "less red" where both colors are warm, bluer and greener elsewhere.
///   - Hue and strength: the hue turns (redder, yellower, greener, bluer), the chroma changes (stronger, duller). Warm
///     colors that turn to orange and gain chroma are "warmer", those that turn away and lose chroma "cooler".
/// Of hue and strength the one that is under a fifth of the other is left out; so is any slight direction beside one
/// five times as large.
/// "no visible difference" if ΔE00 < `visible_de00`; "barely different" if it is larger but nothing reaches
/// `word_slightly`. Both colors must be under one light; across lights compare what is seen (`ciecam16.hpp`).
/// Common practice, not a standard.
std::string describe(const Lab& from, const Lab& to);

/// The same words for what is seen, so that two lights can be compared: by CIECAM16's lightness, chroma and hue. "no
/// visible difference" below `visible_ucs` in the model's uniform space.
inline constexpr double visible_ucs = 0.5;
std::string describe(const Appearance& from, const Appearance& to);

}  // namespace foretone::color
