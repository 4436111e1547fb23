#pragma once
// The growth rings as tables over the radius: sums from the inside out, so that the mean over any stretch of radius,
// however wide the pixel, is one subtraction.

#include <cmath>
#include <cstdint>
#include <vector>

#include "foretone/material/grain.hpp"
#include "grain_tone.hpp"

namespace foretone::grain {

class Rings {
public:
    static constexpr double step_mm = 0.02;

    /// Covers radii from `low_mm` to `high_mm`. The rings are the seed's, whatever range is covered.
    Rings(const material::Grain& grain, const Tone& tone, double low_mm, double high_mm, std::uint64_t seed);

    /// What changes slowly, at a radius.
    struct Local {
        float large, small, size;  ///< density of large and small pores, and the large pores' size, 0–1
    };
    const Local& local(float r) const {
        const double u = (r - low_) / step_mm;
        return local_[u > 0 ? std::min(static_cast<std::size_t>(u), local_.size() - 1) : 0];
    }

    /// The tables, for loops over pixels: the mean of a stretch of radius is the mean slope of the sums and the
    /// difference of what is left at its ends.
    void lend(PixelTables& tables) const;

private:
    double low_;
    float bright_mean_ = 0, uptake_mean_ = 1;
    std::vector<std::uint64_t> bright_, uptake_;  // sums, less their mean slopes: single precision is enough
    std::vector<std::uint64_t> streaks_;          // two streaks of color, variance 1,
    std::vector<float> twist_;                    // and the twist of the fibres
    std::vector<Local> local_;
};

}  // namespace foretone::grain
