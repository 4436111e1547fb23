#pragma once
// Pores cut open by the face: grooves along the grain, each drawn as the share of every pixel that it covers.

#include <functional>

#include "grain_log.hpp"

namespace foretone::picture {

/// Rows [first, end) of the board as shares covered, `width` values a row.
struct Band {
    int first = 0, end = 0, width = 0;
    double step = 0;       ///< mm a pixel
    double centre_mm = 0;  ///< y of the first row's upper edge is −centre_mm
    double y(double row) const { return row * step - centre_mm; }
};

/// One kind of groove.
struct Grooves {
    double per_mm2 = 0;    ///< of the face
    double length_mm = 1;
    double width_mm = 0.1;
    std::uint64_t seed = 0;
};

/// The chance (0–1) that a groove lies there, and its size (0–1), at column and row of the board; may be asked a few rows beyond the band.
using Chance = std::function<std::pair<float, float>(int column, int row)>;

/// Rows beyond a band that `chance` may be asked for.
int groove_margin(const Grooves& grooves, double slope, double step);

/// Adds the grooves that touch the band to `cover`.
void add_grooves(const Band& band, const Grooves& grooves, const Log& log, const Chance& chance, float* cover);

}  // namespace foretone::picture
