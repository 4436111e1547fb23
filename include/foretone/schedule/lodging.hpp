#pragma once
/// Where pigment of a wiped coat stays: in scratches, cut cells and open pores that are wide enough for its grains.

#include "foretone/schedule/ground.hpp"

namespace foretone::schedule {

/// Share of the room of hollows that grains of a width find, where the hollows' widths are exponentially distributed
/// about a mean: exp(−particle/mean). 0–1; both widths in one unit, `mean_width` > 0 or the share is 0.
double room_for_grains(double particle, double mean_width);

/// Wet stain that hollows wiped flush hold back with its pigment, µm over their own part of the area.
struct Lodged {
    double flats_um = 0;  ///< scratches and cut cells beside the pores
    double pores_um = 0;  ///< open pores
};

/// On a spot as it is: scratches and cut cells are as deep as the leveling film · uptake², and on the mean
/// `groove_width` leveling films wide; pores are as deep as wide. Of a depth `lodging` is held, less what a film has
/// closed: exp(−film/(closing · depth)). So a film that levels the flats still leaves the pores of an oak open, as a
/// glaze over a sealer shows (common practice).
Lodged lodged(const UptakeLaw& law, const Ground& ground, double particle_um);

}  // namespace foretone::schedule
