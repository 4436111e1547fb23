#pragma once
/// What a wood's blotches add to ln of its uptake: coarse and fine patches, longer along the grain.

#include "foretone/grain/noise.hpp"
#include "foretone/material/material.hpp"

namespace foretone::grain {

class Blotches {
public:
    Blotches(const material::Grain& grain, std::uint64_t seed)
        : strength_(grain.blotch.value),
          coarse_(seed, 2.3 * grain.blotch_mm.value, grain.blotch_mm.value),
          fine_(seed + 1, 0.8 * grain.blotch_mm.value, 0.3 * grain.blotch_mm.value) {}

    bool any() const { return strength_ > 0; }
    double cell_mm() const { return fine_.cell_y(); }  ///< smallest, across the grain

    /// Adds them to a row of `count` pixels, each `step` mm wide and high; q(x) is y as for Noise::add_row.
    template <class Q>
    void add_row(float* out, int count, double step, const Q& q) const {
        if (!(strength_ > 0)) return;
        coarse_.add_row(out, count, 0.5, step, 0.85 * strength_, step, q);
        fine_.add_row(out, count, 0.5, step, 0.53 * strength_, step, q);
    }

private:
    double strength_;  // ln, one standard deviation
    Noise coarse_, fine_;
};

}  // namespace foretone::grain
