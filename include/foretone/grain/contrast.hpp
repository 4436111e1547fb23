#pragma once
/// How much the grain stands out.

#include "foretone/appearance/tones.hpp"
#include "foretone/color/lab.hpp"
#include "foretone/grain/grain.hpp"

namespace foretone::grain {

/// The palest and the darkest tenth of a board's area, each as one color.
struct Contrast {
    color::Lab pale, dark;
    double lightness = 0;  ///< ΔL* between them
    double ratio = 1;      ///< Y of the palest over Y of the darkest: what the eye adapts to
};

/// Of the board's readings: the tenths are those of *this* state, so that grain which turns (dye that makes early wood
/// darker than late) is told as the contrast it has. Throws std::invalid_argument for maps without pixels.
Contrast contrast(const Maps& maps, const appearance::ToneTable& tones);

/// The same two tenths of the wood in every state: the tenths palest and darkest in `order` (one number a pixel, say
/// the shade). Where the grain has turned, `lightness` is below 0.
Contrast contrast(const Maps& maps, const appearance::ToneTable& tones, const std::vector<float>& order);

}  // namespace foretone::grain
