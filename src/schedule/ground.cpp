// Symbols: u uptake of the spot, sanding and raising included · p porosity · D depth.
// A spot of uptake u is reached √u times as deep, in pores √u times as roomy: its pore volume goes with u, and a first
// coat fills the same share of it everywhere. The mouths at the cut surface are as wide as elsewhere: u times the seal
// over √u times the depth fills √u times as much of them, so that a spot that takes more is sealed more.

#include "foretone/schedule/ground.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::schedule {
namespace {

double whole_uptake(const UptakeLaw& law, const Ground& g) { return g.uptake * taking(law, g.ready); }

}  // namespace

Readied sanded(const Readied& before, double grit, double open) {
    return {open >= 1 ? grit : before.grit * std::pow(grit / before.grit, open), before.raised * (1 - open)};
}

Readied popped(const Readied& before, double open) { return {before.grit, before.raised + (1 - before.raised) * open}; }

double level_um(const UptakeLaw& law, double file_level_um, const Readied& ready) {
    const double scratches = law.scratch_um * (std::pow(usual_grit / ready.grit, law.scratch_power) - 1);
    return std::max(file_level_um / 3, file_level_um + scratches + ready.raised * law.raised_um);
}

double taking(const UptakeLaw& law, const Readied& ready) {
    return std::pow(usual_grit / ready.grit, law.burnish_power) * (1 + ready.raised * law.raised_taking);
}

double free_pores_um(const UptakeLaw& law, const Ground& g, double depth_um) {
    double filled = 0;
    for (const auto& f : g.filled) filled += f.fill * std::min(f.depth_um, depth_um);
    return g.porosity * std::sqrt(whole_uptake(law, g)) * std::max(0.0, depth_um - filled);
}

double outer_fill(const UptakeLaw& law, const Ground& g) {
    double fill = 0;
    for (const auto& f : g.filled) fill += f.fill;
    return std::min(1.0, fill * std::sqrt(whole_uptake(law, g)));
}

double suction(const UptakeLaw& law, const Ground& g) {
    const double open = open_share(law, g.film_um, level_um(law, g.level_um, g.ready));
    return (1 - law.damp_bar * g.wet) * conductance(open, plug(law, outer_fill(law, g)), whole_uptake(law, g));
}

}  // namespace foretone::schedule
