#pragma once
/// The embedded typeface, glyph by glyph.

#include <cstdint>
#include <span>
#include <vector>

#include "foretone/layout/text.hpp"

namespace foretone::layout {

/// Coverage 0–255 of one glyph; its top left pixel lies at (left, top) from the pen on the baseline, y downward.
struct GlyphBitmap {
    int left = 0, top = 0, width = 0, height = 0;
    std::vector<std::uint8_t> coverage;
};

inline constexpr int no_glyph = -1;  ///< nothing is drawn and the pen stays

/// The glyph of a code point; the box if the face has none; `no_glyph` for invisible format characters.
int glyph_of(Face face, char32_t point);

/// Pen travel and vertical reach in font units, and pixels a font unit.
int advance_of(Face face, int glyph);
int kerning_of(Face face, int left, int right);
double pixels_per_unit(const TextStyle& style);
int ascent_units(Face face);
int descent_units(Face face);

/// The face's TrueType file.
std::span<const unsigned char> face_file(Face face);

/// The glyph with its pen at `shift` (0–1) of a pixel right of a whole pixel.
GlyphBitmap rasterize(const TextStyle& style, int glyph, double shift);

}  // namespace foretone::layout
