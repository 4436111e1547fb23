#pragma once
/// A board's state into an optical stack, and the stack into what a reading shows.

#include <functional>
#include <string>

#include "foretone/appearance/board.hpp"
#include "foretone/optics/stack.hpp"

namespace foretone::appearance {

/// The solver that answers: its name and its two questions (see optics/two_flux.hpp).
struct Solver {
    std::string name;
    std::function<optics::Radiance(const optics::Stack&, optics::Geometry)> radiance;
    std::function<std::vector<double>(const optics::Stack&)> inside;
    std::size_t every = 1;  ///< asked at so many-th wavelengths of the grid alone, 1, 2 or 4
};

/// The fast solver.
Solver two_flux_solver();

/// The reference solver, with that many directions a hemisphere (4–64).
Solver angular_solver(int streams);

/// Radiance factors, 0–1, on the grid; their sum is the reading.
struct SplitReflectance {
    spectral::Spectrum body{};     ///< light that went into the wood and came back
    spectral::Spectrum surface{};  ///< light that the first surface sent back

    spectral::Spectrum total() const;
    /// Adds `share` of another.
    void add(double share, const SplitReflectance& part);
};

/// The covered share's stack, of a spot that is alike all over: coats over the zone over the wood's body, all
/// index-matched below the lowest coat (film and wood meet in a rough, filled boundary, not in a mirror). `with_coats`
/// false gives the zone over the body alone. At every `every`-th wavelength of the grid, 1, 2 or 4.
optics::Stack stack_of(const Board& board, const material::Wood& wood, bool with_coats, std::size_t every = 1);

/// What a reading of the board shows: the covered share under its film, the rest as dry, sanded wood. Where a wiped
/// pigment lies in open pores, flats and pores are read side by side, by their shares of the area: no light passes from
/// one to the other, which for the finest pores (under some 100 µm) leaves the mean a little pale.
SplitReflectance render(const Board& board, const material::Wood& wood, optics::Geometry geometry,
                        const Solver& solver);

}  // namespace foretone::appearance
