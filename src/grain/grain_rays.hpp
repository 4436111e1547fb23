#pragma once
// Rays: ribbons that stand across the rings. Seen from outside a log each is a spindle along the grain; a face that
// runs nearly along them shows them as fleck. Both are one picture over x and the tangential coordinate T, looked up
// where the face lies.

#include <cstdint>
#include <memory>

#include "foretone/material/grain.hpp"
#include "loops.hpp"

namespace foretone::grain {

class Rays {
public:
    /// Spindles over `columns` pixels of `step` mm, and T from low to high. `fine_mm`: finest step of T worth keeping.
    Rays(const material::Grain& grain, int columns, double step, double low_mm, double high_mm, double fine_mm,
         std::uint64_t seed, int threads);

    /// The table, for loops over pixels: the share of a stretch of T that rays take is a difference of sums.
    void lend(PixelTables& tables) const;

private:
    void draw(const material::Grain& grain, double step, double low_mm, double high_mm, double bin, std::uint64_t seed,
              int first, int end);

    int columns_, rows_;
    float low_, per_mm_;
    std::unique_ptr<float[]> sums_;  // mm of ray below each step of T, rows_ × columns_
};

}  // namespace foretone::grain
