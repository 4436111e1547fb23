#pragma once
/// A wood whose reflectance is known only by its color: a known shape brought to that color.

#include "foretone/color/lab.hpp"
#include "foretone/material/material.hpp"

namespace foretone::material {

/// Moves the reflectance of `wood` so that it has the color `target` under the light and observer of `weights`:
/// ln(K/S) of the reading is changed by c0 + c1 t + c2 t², t = (λ − 560 nm)/180 nm, the three constants solved by
/// Newton's method to ΔE*ab 1e-6. Returns false, and leaves the wood as it was, if no such curve between 0.005 and 0.98
/// exists. The result is one of many spectra of that color: under another light it can be off by a few ΔE00.
bool relevel(Wood& wood, const color::Lab& target, const color::Weights& weights);

}  // namespace foretone::material
