#pragma once
// How bright a wood is when its body absorbs exp(shade) times as much: bare reflectance as the eye weighs it, and back.

#include <vector>

#include "foretone/material/material.hpp"
#include "loops.hpp"

namespace foretone::grain {

/// Y(shade) and its inverse by tables over −2.5 … 4, straight between points 0.01 apart: within 2e-5 of the formula.
class Tone {
public:
    static constexpr double low = -2.5, high = 4;

    explicit Tone(const material::Wood& wood);

    /// Reflectance 0–1; shades outside are held.
    float bright(float shade) const {
        const float u = (clamp(shade) - static_cast<float>(low)) * per_shade;
        const int i = u < last ? static_cast<int>(u) : last - 1;
        return y_[static_cast<std::size_t>(i)] +
               (u - static_cast<float>(i)) * (y_[static_cast<std::size_t>(i) + 1] - y_[static_cast<std::size_t>(i)]);
    }

    /// The tables, for loops over pixels.
    void lend(PixelTables& tables) const {
        tables.bright = y_pairs_.data(), tables.shade = back_pairs_.data();
        tables.shade_low = static_cast<float>(low), tables.shade_high = static_cast<float>(high);
        tables.per_shade = per_shade, tables.brightest = y_[0], tables.per_bright = per_bright_;
        tables.tone_last = last;
    }

private:
    static constexpr int last = 650;
    static constexpr float per_shade = 100.0f;
    static float clamp(float s) {
        return s < static_cast<float>(low)    ? static_cast<float>(low)
               : s > static_cast<float>(high) ? static_cast<float>(high)
                                              : s;
    }

    std::vector<float> y_, back_;
    std::vector<std::uint64_t> y_pairs_, back_pairs_;  // each entry with the next
    float per_bright_ = 0;
};

}  // namespace foretone::grain
