// Lagrange's cubic through the four nodes around a wavelength, one-sided at the ends; exact where a spectrum is
// a cubic over 60 nm.

#include "every_fourth.hpp"

#include <algorithm>
#include <array>

namespace foretone::appearance {
namespace {

static_assert((spectral::grid_size - 1) % 4 == 0, "the grid ends on a node");

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
template <std::size_t Every>
using Table = std::array<std::array<std::array<double, 4>, Every>, 3>;

template <std::size_t Every>
Table<Every> make_table() {
    Table<Every> t{};
    for (std::size_t p = 0; p < t.size(); ++p)
        for (std::size_t r = 0; r < Every; ++r)
            t[p][r] = weights_at(static_cast<double>(p) + static_cast<double>(r) / Every);
    return t;
}

template <std::size_t Every>
spectral::Spectrum between(const std::vector<double>& at_nodes) {
    constexpr std::size_t nodes = nodes_of(Every);
    static const Table<Every> table = make_table<Every>();
    spectral::Spectrum out;
    for (std::size_t before = 0; before + 1 < nodes; ++before) {
        const std::size_t first = std::clamp<std::size_t>(before, 1, nodes - 3) - 1;
        const double* four = at_nodes.data() + first;
        for (std::size_t r = 0; r < Every; ++r) {
            const auto& w = table[before - first][r];
            out[before * Every + r] = w[0] * four[0] + w[1] * four[1] + w[2] * four[2] + w[3] * four[3];
        }
    }
    out[spectral::grid_size - 1] = at_nodes.back();
    return out;
}

}  // namespace

std::vector<double> thinned(const spectral::Spectrum& values, std::size_t every) {
    std::vector<double> out(nodes_of(every));
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = values[i * every];
    return out;
}

spectral::Spectrum filled(const std::vector<double>& at_nodes, std::size_t every) {
    if (every == 4) return between<4>(at_nodes);
    if (every == 2) return between<2>(at_nodes);
    spectral::Spectrum out;
    std::copy(at_nodes.begin(), at_nodes.end(), out.begin());
    return out;
}

NodeWeights::NodeWeights(const color::Weights& light, std::size_t every) {
    std::vector<double> one(nodes_of(every), 0.0);
    for (double& node : one) {
        node = 1;
        const color::Xyz c = color::xyz(filled(one, every), light);
        weights_.push_back({c.x, c.y, c.z});
        node = 0;
    }
}

color::Xyz NodeWeights::xyz(const std::vector<double>& at_nodes) const {
    color::Xyz c;
    for (std::size_t i = 0; i < weights_.size(); ++i) {
        c.x += weights_[i][0] * at_nodes[i];
        c.y += weights_[i][1] * at_nodes[i];
        c.z += weights_[i][2] * at_nodes[i];
    }
    return c;
}

Solver every_fourth(Solver solver) {
    solver.every = 4;
    return solver;
}

}  // namespace foretone::appearance
