// Lagrange's cubic through the four nodes around a wavelength, one-sided at the ends; exact where a spectrum is a cubic
// over 60 nm.

#include "every_fourth.hpp"

#include <algorithm>
#include <array>

namespace foretone::appearance {
namespace {

constexpr std::size_t every = 4;
constexpr std::size_t nodes = (spectral::grid_size - 1) / every + 1;
static_assert((nodes - 1) * every + 1 == spectral::grid_size, "the grid ends on a node");

std::vector<double> thinned(const std::vector<double>& values) {
    if (values.empty()) return {};
    std::vector<double> out(nodes);
    for (std::size_t i = 0; i < nodes; ++i) out[i] = values[i * every];
    return out;
}

optics::Stack thinned(const optics::Stack& stack) {
    optics::Stack out;
    out.wavelengths = nodes;
    out.layers.reserve(stack.layers.size());
    for (const auto& l : stack.layers)
        out.layers.push_back(
            {l.n, l.thickness_mm, thinned(l.absorption_per_mm), thinned(l.scattering_per_mm), l.anisotropy});
    out.base = {stack.base.kind, thinned(stack.base.reflectance)};
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

// [place of the node before among the four][steps beyond it]
using Table = std::array<std::array<std::array<double, 4>, every>, 3>;

Table make_table() {
    Table t{};
    for (std::size_t p = 0; p < t.size(); ++p)
        for (std::size_t r = 0; r < every; ++r)
            t[p][r] = weights_at(static_cast<double>(p) + static_cast<double>(r) / every);
    return t;
}

std::vector<double> filled(const std::vector<double>& at_nodes) {
    if (at_nodes.empty()) return {};
    static const Table table = make_table();
    std::vector<double> out(spectral::grid_size);
    for (std::size_t before = 0; before + 1 < nodes; ++before) {
        const std::size_t first = std::clamp<std::size_t>(before, 1, nodes - 3) - 1;
        const double* four = at_nodes.data() + first;
        for (std::size_t r = 0; r < every; ++r) {
            const auto& w = table[before - first][r];
            out[before * every + r] = w[0] * four[0] + w[1] * four[1] + w[2] * four[2] + w[3] * four[3];
        }
    }
    out.back() = at_nodes.back();
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
