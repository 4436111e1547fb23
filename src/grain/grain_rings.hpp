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

    struct Mean {
        float bright, uptake;
    };

    /// Means over `wide` mm of radius about r.
    Mean mean(float r, float wide) const {
        const double w = std::max<double>(wide, step_mm);
        const Sums a = at(r - 0.5 * w), b = at(r + 0.5 * w);
        const double per = step_mm / w;  // a sum counts steps
        return {static_cast<float>((b.bright - a.bright) * per), static_cast<float>((b.uptake - a.uptake) * per)};
    }

    struct Local {
        float streak[2], twist, large, small, size;
    };

    /// What changes slowly, at r: two streaks and the twist (variance 1), the density of large and small pores (0–1)
    /// and the large pores' size (0–1).
    const Local& local(float r) const {
        const double u = (r - low_) / step_mm;
        return local_[u > 0 ? std::min(static_cast<std::size_t>(u), local_.size() - 1) : 0];
    }

private:
    struct Sums {
        double bright, uptake;
    };

    Sums at(double r) const {
        double u = (r - low_) / step_mm;
        u = std::min(std::max(u, 0.0), static_cast<double>(sums_.size() - 2));
        const auto i = static_cast<std::size_t>(u);
        const double t = u - static_cast<double>(i);
        return {sums_[i].bright + t * (sums_[i + 1].bright - sums_[i].bright),
                sums_[i].uptake + t * (sums_[i + 1].uptake - sums_[i].uptake)};
    }

    double low_;
    std::vector<Sums> sums_;
    std::vector<Local> local_;
};

}  // namespace foretone::grain
