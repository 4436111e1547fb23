#pragma once
/// Text before it is drawn: how wide it is, and how it is broken or shortened to fit. All text is UTF-8.
///
/// A character the typeface lacks, and a byte that is not UTF-8, is drawn as an empty box and measured as one. Control
/// characters count as spaces; invisible format characters (soft hyphen, joiners, variation selectors) take no room.

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace foretone::layout {

enum class Face { regular, bold };

struct TextStyle {
    Face face = Face::regular;
    double size_px = 17;  ///< em size, pixels, 4–400
};

/// Pen travel from the first glyph to after the last, kerned, pixels.
double text_width(std::string_view text, const TextStyle& style);

/// From the baseline up to the top of the tallest ordinary glyphs, pixels.
double text_ascent(const TextStyle& style);

/// From the baseline down to the bottom of the deepest ordinary glyphs, pixels, positive.
double text_descent(const TextStyle& style);

/// The text if it is no wider than `width_px`, else its longest beginning that is, ended by "…". If not even "…" fits:
/// empty.
std::string fit_text(std::string_view text, const TextStyle& style, double width_px);

/// Lines no wider than `width_px`, broken at spaces; a word too long for a line is broken inside. Spaces at breaks are
/// dropped. What does not go into `max_lines` (≥ 1) is left out and the last line ends in "…". Empty text: no lines.
/// Throws std::invalid_argument if `max_lines` is 0.
std::vector<std::string> wrap_text(std::string_view text, const TextStyle& style, double width_px,
                                   std::size_t max_lines);

}  // namespace foretone::layout
