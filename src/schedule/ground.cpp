// Symbols: u uptake of the spot, sanding and raising included · p porosity · D depth.
// A spot of uptake u is reached √u times as deep, in pores √u times as roomy: its pore volume goes with u, and a first
// coat fills the same share of it everywhere. The mouths at the cut surface are as wide as elsewhere: u times the seal
// over √u times the depth fills √u times as much of them, so that a spot that takes more is sealed more.

#include "foretone/schedule/ground.hpp"

#include <algorithm>
#include <cmath>

namespace foretone::schedule {
namespace {

constexpr double scratch_um = 3, scratch_power = 0.7;  // common practice: 220 paper
constexpr double raised_um = 1, raised_taking = 1.15;  // common practice: water popping
constexpr double burnish_power = 0.15;                 // common practice: sanded too fine, wood takes less

double whole_uptake(const Ground& g) { return g.uptake * taking(g.ready); }

}  // namespace

double level_um(double file_level_um, const Readied& ready) {
    const double scratches = scratch_um * (std::pow(usual_grit / ready.grit, scratch_power) - 1);
    return std::max(file_level_um / 3, file_level_um + scratches + (ready.raised ? raised_um : 0));
}

double taking(const Readied& ready) {
    return std::pow(usual_grit / ready.grit, burnish_power) * (ready.raised ? raised_taking : 1);
}

double free_pores_um(const Ground& g, double depth_um) {
    double filled = 0;
    for (const auto& f : g.filled) filled += f.fill * std::min(f.depth_um, depth_um);
    return g.porosity * std::sqrt(whole_uptake(g)) * std::max(0.0, depth_um - filled);
}

double outer_fill(const Ground& g) {
    double fill = 0;
    for (const auto& f : g.filled) fill += f.fill;
    return std::min(1.0, fill * std::sqrt(whole_uptake(g)));
}

double suction(const UptakeLaw& law, const Ground& g) {
    const double open = open_share(law, g.film_um, level_um(g.level_um, g.ready));
    return (1 - law.damp_bar * g.wet) * conductance(open, plug(law, outer_fill(g)), whole_uptake(g));
}

}  // namespace foretone::schedule
