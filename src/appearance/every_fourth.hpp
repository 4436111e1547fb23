#pragma once
// Spectra at every second or fourth wavelength of the grid, and between.

#include <array>
#include <vector>

#include "foretone/appearance/render.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::appearance {

/// How many wavelengths of the grid are left of it at every `every`-th, 1, 2 or 4.
constexpr std::size_t nodes_of(std::size_t every) { return (spectral::grid_size - 1) / every + 1; }

/// Values at the nodes alone.
std::vector<double> thinned(const spectral::Spectrum& values, std::size_t every);

/// Values at the nodes, in between interpolated (cubic).
spectral::Spectrum filled(const std::vector<double>& at_nodes, std::size_t every);

/// The dry wood without end, what all boards of one wood lie on, at every `every`-th wavelength.
optics::Layer dry_wood(const material::Wood& wood, std::size_t every);

/// What `render` shows, body and surface together, at the solver's nodes alone; `dry`: `dry_wood` of that wood.
std::vector<double> total_at_nodes(const optics::Layer& dry, const Board& board, const material::Wood& wood,
                                   optics::Geometry geometry, const Solver& solver);

/// XYZ of a spectrum between the nodes, straight from its values there: the interpolation is linear, so a light's
/// weights are spread onto the nodes once.
class NodeWeights {
public:
    NodeWeights(const color::Weights& light, std::size_t every);

    /// As color::xyz(filled(at_nodes, every), light), but for rounding.
    color::Xyz xyz(const std::vector<double>& at_nodes) const;

private:
    std::vector<std::array<double, 3>> weights_;
};

/// `solver`, asked at 380, 400, … 780 nm alone. Dyes, films and woods are smooth over 20 nm: colors come out within
/// ΔE00 0.05 of the full solve, differences of two of them within 0.02 (a test says so), for a third of the time. For
/// draws, which are told apart by far more.
Solver every_fourth(Solver solver);

}  // namespace foretone::appearance
