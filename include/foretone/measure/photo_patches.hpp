#pragma once
/// Patches of one photograph that holds a white card and the boards together. A camera is no instrument: the readings
/// compare boards within the picture, and are marked so; none of them is the color of a board by itself.

#include <span>

#include "foretone/measure/reading.hpp"

namespace foretone::measure {

/// Linear-light pixels with sRGB primaries, row by row from the top left; 1 is where the sensor (or the file) clips.
struct PixelView {
    int width = 0, height = 0;
    std::span<const float> rgb;  ///< width · height · 3
};

/// A rectangle in pixels; x to the right, y down, from the top left corner.
struct Rect {
    int x = 0, y = 0, width = 0, height = 0;
};

struct NamedRect {
    std::string name;
    Rect rect;
};

/// The card and what it must be to serve.
struct CardRules {
    double reflectance = 0.90;   ///< of the card, 0.05–1: what its mean is scaled to
    int least_side = 8;          ///< pixels, of the card and of a patch
    double darkest = 0.08;       ///< mean of the card's weakest channel, share of the clipping level
    double clipped = 0.98;       ///< a pixel with a channel above this counts as clipped
    double most_clipped = 0.01;  ///< share of the card's pixels that may be clipped
    double most_uneven = 0.15;   ///< half-range of the means of the card's nine fields over its mean: above it, Refused
    double noted_uneven = 0.03;  ///< above it, a note
};

/// Mean color of each patch as Lab under D65 for the 2 degree observer, after every channel was scaled so that the card
/// is neutral with its reflectance. Readings are `relative`, with the tag source = "photograph". Notes: photo-relative
/// always; light-uneven with its share; patch-clipped. Throws Refused: card-outside, card-small, card-clipped,
/// card-dark, card-uneven; patch-outside, patch-small, patch-on-card, patch-clipped-whole, patch-twice, patches-none;
/// std::invalid_argument for pixels whose number is not width · height · 3 or that are not finite.
Readings read_patches(const PixelView& pixels, const Rect& card, const std::vector<NamedRect>& patches,
                      const CardRules& rules = {});

}  // namespace foretone::measure
