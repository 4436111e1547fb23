#pragma once
/// A figure of a material: a value, how sure it is, and where it comes from.

#include <optional>
#include <string>
#include <string_view>

#include "foretone/spectral/grid.hpp"

namespace foretone::material {

/// Where a figure comes from, from strong to weak.
enum class Mark { measured, published, computed, fitted, practice, stated, memory };

/// "measured", "published", ...
std::string_view word(Mark mark);

/// Inverse of `word`; empty for any other text.
std::optional<Mark> mark_from(std::string_view text);

/// The weaker of two marks: what a result that uses both rests on.
constexpr Mark weaker(Mark a, Mark b) { return a > b ? a : b; }

struct Provenance {
    Mark mark = Mark::stated;
    std::string source;
};

/// A number with one standard deviation in its own unit.
struct Figure {
    double value = 0;
    double sd = 0;
    Provenance from;
};

/// A spectrum on the grid. `sd` is relative: one standard deviation of the level.
struct SpectrumFigure {
    spectral::Spectrum values{};
    double sd = 0;
    Provenance from;
    bool resampled = false;   ///< was not given on the grid
    bool held_below = false;  ///< first value held towards 380 nm
    bool held_above = false;  ///< last value held towards 780 nm
};

}  // namespace foretone::material
