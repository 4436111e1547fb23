#pragma once
// Rays: ribbons that stand across the rings. Seen from outside a log each is a spindle along the grain; a face that
// runs nearly along them shows them as fleck. Both are one picture over x and the tangential coordinate T, looked up
// where the face lies.

#include <cstdint>
#include <vector>

#include "foretone/material/grain.hpp"

namespace foretone::grain {

class Rays {
public:
    /// Spindles over `columns` pixels of `step` mm, and T from low to high. `fine_mm`: finest step of T worth keeping.
    Rays(const material::Grain& grain, int columns, double step, double low_mm, double high_mm, double fine_mm,
         std::uint64_t seed);

    /// Share of a stretch of T, `wide` mm about t, that rays take at that column.
    float cover(int column, float t, float wide) const {
        const float w = wide > 1.0f / per_mm_ ? wide : 1.0f / per_mm_;
        return (sum(column, t + 0.5f * w) - sum(column, t - 0.5f * w)) / w;
    }

private:
    float sum(int column, float t) const {
        float u = (t - low_) * per_mm_;
        const auto top = static_cast<float>(rows_ - 1);
        u = u > 0 ? (u < top ? u : top) : 0;
        auto i = static_cast<std::size_t>(u);
        if (i + 2 > static_cast<std::size_t>(rows_)) i = static_cast<std::size_t>(rows_) - 2;
        const float* p = &sums_[i * static_cast<std::size_t>(columns_) + static_cast<std::size_t>(column)];
        return p[0] + (u - static_cast<float>(i)) * (p[columns_] - p[0]);
    }

    int columns_, rows_;
    float low_, per_mm_;
    std::vector<float> sums_;  // mm of ray below each step of T
};

}  // namespace foretone::grain
