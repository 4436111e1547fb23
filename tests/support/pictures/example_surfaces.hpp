#pragma once
/// Surfaces for tests of the renderers' fits: smooth, wood-like reflectances, films of any gloss and tint.

#include <cmath>
#include <random>
#include <vector>

#include "foretone/format/surface.hpp"

namespace foretone::test {

/// A reflectance that rises with wavelength as wood's does, `level` 0–1 at the red end.
inline format::Surface example_surface(unsigned seed, double covered, double level) {
    std::mt19937 random(seed);
    const auto unit = [&] { return static_cast<double>(random()) / 4294967296.0; };
    const double middle = 480 + 120 * unit(), steep = 30 + 90 * unit(), floor = 0.1 + 0.4 * unit(), tint = 0.4 * unit();
    format::Surface s;
    s.covered = covered;
    s.n = 1.44 + 0.14 * unit();
    s.alpha = covered > 0 ? 0.02 + 0.6 * unit() * unit() : 0;
    for (std::size_t i = 0; i < spectral::grid_size; ++i) {
        const double nm = spectral::grid_nm(i);
        s.reflectance[i] = 0.015 + level * (floor + (1 - floor) / (1 + std::exp((middle - nm) / steep)));
        s.film_twice[i] = covered > 0 ? std::exp(-2 * tint * std::exp(-(nm - 380) / 90)) : 1;
    }
    return s;
}

/// Several hundred of them: bare, thinly and fully covered, dark and pale.
inline std::vector<format::Surface> example_surfaces() {
    std::vector<format::Surface> out;
    for (unsigned i = 0; i < 400; ++i)
        out.push_back(example_surface(100 + i,
                                      i % 4 == 0   ? 0
                                      : i % 4 == 1 ? 0.35
                                      : i % 4 == 2 ? 0.9
                                                   : 1,
                                      0.1 + 0.8 * (i % 17) / 16.0));
    return out;
}

}  // namespace foretone::test
