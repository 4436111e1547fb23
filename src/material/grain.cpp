// The grain of a wood whose file says nothing of it: a fine, scattered pore and a quiet face, every figure common
// practice with a wide spread.

#include "foretone/material/grain.hpp"

#include <algorithm>
#include <numbers>

namespace foretone::material {

Grain plain_grain() {
    const Provenance plain{Mark::practice,
                           "a plain wood with fine, scattered pores: the grain of this one is not stated"};
    const auto of = [&](double value, double sd) { return Figure{value, sd, plain}; };
    Grain g;
    g.pores = Pores::diffuse;
    g.pores_from = plain;
    g.ring_mm = of(2, 1), g.ring_variation = of(0.3, 0.1), g.ring_waver_mm = of(0.4, 0.2);
    g.late_share = of(0.3, 0.1), g.late_abrupt = of(0.1, 0.1), g.late_shade = of(0.15, 0.08),
    g.late_uptake = of(0.9, 0.1);
    g.line_mm = of(0.15, 0.08), g.line_shade = of(0.15, 0.1);
    g.pore_um = of(70, 20), g.pore_per_mm2 = of(50, 20), g.pore_zone = of(1, 0.1), g.pore_mm = of(1.2, 0.6);
    g.small_pore_um = of(60, 20), g.small_pore_per_mm2 = of(40, 20), g.pore_shade = of(0.8, 0.3),
    g.pore_uptake = of(1.4, 0.3);
    g.ray_um = of(50, 20), g.ray_mm = of(0.6, 0.3), g.ray_per_mm = of(0.4, 0.3), g.ray_shade = of(0.2, 0.15);
    g.ray_end_shade = of(0.2, 0.15);
    g.fibre_shade = of(0.08, 0.04), g.streak_shade = of(0.05, 0.03), g.streak_mm = of(6, 3),
    g.drift_shade = of(0.05, 0.03);
    g.speck_per_dm2 = of(0, 0.5), g.speck_mm = of(2, 1);
    g.slope_deg = of(1.5, 0.8), g.curl_deg = of(1.5, 1.5), g.curl_mm = of(10, 4), g.ribbon_deg = of(0, 1),
    g.ribbon_mm = of(15, 5);
    g.blotch = of(0.12, 0.06), g.blotch_mm = of(10, 5), g.end_uptake = of(3, 1);
    return g;
}

namespace {

struct InRing {
    double large, small;  // number times size of the pores over a ring's mean, of those in their own zone
};

// Means over a ring of number and size as a board's face has them (grain/grain_rings.cpp), z the zone's share: large
// pores thin out and get smaller from the zone's start on; small ones fill the rest.
InRing in_ring(Pores pores, double z) {
    switch (pores) {
        case Pores::ring:
            return {0.87 * z, 1 - z};
        case Pores::semi_ring:
            return {0.50 * z + 0.11 * (1 - z), 1 - 0.5 * z};
        case Pores::diffuse:
            return {0.84, 0};
        case Pores::resin:
            return {z, 0};
        case Pores::none:
            break;
    }
    return {0, 0};
}

}  // namespace

double open_pore_share(const Grain& g) {
    const auto cut = [](const Figure& um, const Figure& per_mm2) {
        return std::min(1.0, std::numbers::pi / 4 * 1e-6 * um.value * um.value * per_mm2.value);
    };
    const InRing mean = in_ring(g.pores, std::clamp(g.pore_zone.value, 0.02, 1.0));
    const double large = mean.large * cut(g.pore_um, g.pore_per_mm2);
    const double small = mean.small > 0 ? mean.small * cut(g.small_pore_um, g.small_pore_per_mm2) : 0;
    return 1 - (1 - large) * (1 - 0.75 * small);
}

}  // namespace foretone::material
