// Pigment that stays when a coat is wiped off.
//
// Symbols: D width of a grain · w width of a hollow · w̄ mean width · h its depth · ψ share of its room that grains
// find
//   ψ(w) = (1 − D/w)²  for w > D, else 0        a grain's centre stays D/2 off the walls (Ferry 1936)
//   ψ̄ = ∫ w² ψ(w) e^(−w/w̄) dw / ∫ w² e^(−w/w̄) dw = e^(−D/w̄)
// The room of a hollow goes with w², as its depth goes with its width. Scratches of one paper and cells of one wood are
// of all widths up to the widest; an exponential spread leaves a form that is smooth and never negative, where one
// width would cut off at D at a stroke. By Washburn uptake goes with the root of the width, and a hollow wiped flush
// holds in proportion to its width: where wood takes u times as much, h is u² times as deep. w̄ is the paper's alone.

#include "foretone/schedule/lodging.hpp"

#include <cmath>

namespace foretone::schedule {

double room_for_grains(double particle, double mean_width) {
    return mean_width > 0 ? std::exp(-particle / mean_width) : 0;
}

Lodged lodged(const UptakeLaw& law, const Ground& g, double particle_um) {
    const double level = level_um(law, g.level_um, g.ready);
    Lodged out;
    out.flats_um = open_share(law, g.film_um, level) * law.lodging * level * g.uptake * g.uptake *
                   room_for_grains(particle_um, law.groove_width * level);
    if (g.pore_um > 0)
        out.pores_um =
            open_share(law, g.film_um, g.pore_um) * law.lodging * g.pore_um * room_for_grains(particle_um, g.pore_um);
    return out;
}

}  // namespace foretone::schedule
