#pragma once
/// Evenly spread points of the unit cube, and the normal deviates they stand for.

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace foretone::appearance {

inline constexpr std::size_t lattice_points = 67;  ///< a prime, so that every generator spreads over all of them
inline constexpr std::size_t lattice_dimensions = 12;

/// Generating vector of a rank-1 lattice of `lattice_points` points, built component by component (Sloan & Reztsov
/// 2002) for the Korobov space of smoothness 1 with weight on pairs of dimensions alone, no generator twice, the
/// smaller of two equals. Early dimensions are the best spread: the largest effect belongs first.
extern const std::array<int, lattice_dimensions> lattice_generator;

/// The lattice moved as a whole by a shift that `seed` gives (Cranley & Patterson 1976). Beyond `lattice_dimensions` a
/// dimension is a seeded shuffle of the points' strata (a Latin hypercube). Same seed, same points.
class ShiftedLattice {
public:
    ShiftedLattice(std::size_t dimensions, std::uint64_t seed);

    /// Coordinate of point `i` < `lattice_points`, inside 0–1, ends excluded. `again` > 0 gives another point in its
    /// place: the lattice under the shift number `again`.
    double at(std::size_t i, std::size_t dimension, unsigned again = 0) const;

private:
    std::uint64_t seed_;
    std::vector<std::vector<std::uint16_t>> shuffled_;
};

/// x with Φ(x) = p, Φ the standard normal distribution; 0 < p < 1, error below 1e-8 for p from 1e-12 to 1 − 1e-12.
/// Throws std::invalid_argument outside 0–1.
double normal_quantile(double p);

/// A 64-bit mix of two numbers (splitmix64), for seeds.
std::uint64_t mixed(std::uint64_t a, std::uint64_t b);

}  // namespace foretone::appearance
