// Lagrange's cubic through the four nodes around a wavelength, one-sided at the ends; exact where a spectrum is a cubic
// over 60 nm.

#include "every_fourth.hpp"

#include <algorithm>
#include <array>

namespace foretone::appearance {
namespace {

constexpr std::size_t stride = 4;
constexpr std::size_t nodes = (spectral::grid_size - 1) / stride + 1;
static_assert((nodes - 1) * stride + 1 == spectral::grid_size, "the grid ends on a node");

void thin(std::vector<double>& values) {
    if (values.empty()) return;
    for (std::size_t i = 0; i < nodes; ++i) values[i] = values[i * stride];
    values.resize(nodes);
}

optics::Stack thinned(const optics::Stack& stack) {
    optics::Stack out = stack;
    out.wavelengths = nodes;
    for (auto& layer : out.layers) {
        thin(layer.absorption_per_mm);
        thin(layer.scattering_per_mm);
    }
    thin(out.base.reflectance);
    return out;
}

// Weights of nodes first … first + 3 at `x` nodes beyond the first.
std::array<double, 4> weights_at(double x) {
    std::array<double, 4> w{};
    for (std::size_t j = 0; j < 4; ++j) {
        w[j] = 1;
        for (std::size_t k = 0; k < 4; ++k)
            if (k != j) w[j] *= (x - static_cast<double>(k)) / (static_cast<double>(j) - static_cast<double>(k));
    }
    return w;
}

std::vector<double> filled(const std::vector<double>& at_nodes) {
    if (at_nodes.empty()) return {};
    std::vector<double> out(spectral::grid_size);
    for (std::size_t i = 0; i < out.size(); ++i) {
        const std::size_t before = std::min(i / stride, nodes - 2);
        const std::size_t first = std::clamp<std::size_t>(before, 1, nodes - 3) - 1;
        static const auto table = [] {  // [place of the node before, from the first][i − 4·before]
            std::array<std::array<std::array<double, 4>, stride + 1>, 3> t;
            for (std::size_t p = 0; p < 3; ++p)
                for (std::size_t r = 0; r <= stride; ++r)
                    t[p][r] = weights_at(static_cast<double>(p) + static_cast<double>(r) / stride);
            return t;
        }();
        const auto& w = table[before - first][i - before * stride];
        for (std::size_t k = 0; k < 4; ++k) out[i] += w[k] * at_nodes[first + k];
    }
    return out;
}

}  // namespace

Solver every_fourth(const Solver& solver) {
    return {solver.name,
            [&solver](const optics::Stack& s, optics::Geometry g) {
                const auto seen = solver.radiance(thinned(s), g);
                return optics::Radiance{filled(seen.body), filled(seen.specular)};
            },
            [&solver](const optics::Stack& s) { return filled(solver.inside(thinned(s))); }};
}

}  // namespace foretone::appearance
