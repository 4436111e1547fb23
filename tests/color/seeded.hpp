#pragma once
/// Seeded inputs that are the same on every platform.

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <random>

#include "foretone/color/lab.hpp"
#include "foretone/spectral/grid.hpp"

namespace foretone::test {

class Seeded {
public:
    explicit Seeded(std::uint64_t seed) : engine_(seed) {}

    /// Uniform in [low, high): 53 random bits.
    double uniform(double low, double high) {
        return low + (high - low) * static_cast<double>(engine_() >> 11) * 0x1p-53;
    }

    color::Lab lab() {
        const double l = uniform(0, 100), a = uniform(-110, 110), b = uniform(-110, 110);
        return {l, a, b};
    }

    /// A smooth reflectance in 0.01–0.99: a level and three waves of 190 to 570 nm period.
    spectral::Spectrum reflectance() {
        const double level = uniform(0.2, 0.7);
        std::array<std::array<double, 3>, 3> wave{};
        for (auto& w : wave) w = {uniform(0, 0.15), uniform(190, 570), uniform(0, 2 * std::numbers::pi)};
        spectral::Spectrum s;
        for (std::size_t i = 0; i < spectral::grid_size; ++i) {
            double r = level;
            for (const auto& w : wave) r += w[0] * std::sin(2 * std::numbers::pi * spectral::grid_nm(i) / w[1] + w[2]);
            s[i] = std::clamp(r, 0.01, 0.99);
        }
        return s;
    }

private:
    std::mt19937_64 engine_;
};

}  // namespace foretone::test
