#pragma once
/// Seeded random stacks, the same on every machine.

#include <cmath>
#include <cstddef>
#include <random>
#include <vector>

#include "foretone/optics/stack.hpp"

namespace foretone::test {

class Random {
public:
    explicit Random(unsigned long long seed) : engine_(seed) {}
    /// Uniform on [low, high): the engine's top 53 bits.
    double uniform(double low, double high) {
        return low + (high - low) * (static_cast<double>(engine_() >> 11) * 0x1p-53);
    }
    /// Uniform in the logarithm.
    double log_uniform(double low, double high) { return low * std::exp(uniform(0, std::log(high / low))); }
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(uniform(0, static_cast<double>(count))); }
    bool chance(double p) { return uniform(0, 1) < p; }

private:
    std::mt19937_64 engine_;
};

/// One to four layers at one wavelength, clear or scattering, indices from a short list so that equal neighbours occur.
inline optics::Stack random_stack(Random& random, bool absorbing, optics::Base::Kind base) {
    constexpr double indices[] = {1.0, 1.33, 1.45, 1.5, 1.5, 1.55, 1.7};
    optics::Stack stack;
    stack.wavelengths = 1;
    const std::size_t layers = 1 + random.below(4);
    for (std::size_t i = 0; i < layers; ++i) {
        optics::Layer layer;
        layer.n = indices[random.below(7)];
        layer.thickness_mm = random.log_uniform(1e-3, 3);
        layer.absorption_per_mm = {absorbing ? random.log_uniform(1e-3, 30) : 0.0};
        if (random.chance(0.6)) layer.scattering_per_mm = {random.log_uniform(1e-2, 100)};
        layer.anisotropy = random.uniform(-0.5, 0.9);
        stack.layers.push_back(layer);
    }
    stack.base.kind = base;
    if (base == optics::Base::Kind::lambertian) stack.base.reflectance = {absorbing ? random.uniform(0, 1) : 1.0};
    return stack;
}

}  // namespace foretone::test
