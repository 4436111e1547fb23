#pragma once
/// Stacks for the tests of the angular solver: from the rows of tables, and at random.

#include <cstdint>
#include <random>

#include "foretone/optics/stack.hpp"
#include "support/table.hpp"

namespace foretone::test {

/// One layer at one wavelength, by albedo a and optical depth b (thickness 1 mm, or infinite).
optics::Layer layer(double n, double a, double b, double g);

/// A clear film of the given absorption depth.
optics::Layer clear_film(double n, double depth);

/// One-wavelength stacks.
optics::Stack over_lambertian(std::vector<optics::Layer> layers, double reflectance);
optics::Stack over_air(std::vector<optics::Layer> layers);
optics::Stack over_black(std::vector<optics::Layer> layers);

/// Row of transport_slabs_published.csv: slides above and below, open; half-spaces without the lower slide.
optics::Stack slab(const Row& row);

/// Row of transport_layer_over_lambertian.csv: cells may hold several layers, top first, divided by '|'.
optics::Stack layers_over_lambertian(const Row& row);

/// Portable random numbers: the same on every library.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed) {}
    double unit() { return static_cast<double>(engine_() >> 11) * 0x1.0p-53; }  ///< 0 ≤ u < 1
    double between(double low, double high) { return low + (high - low) * unit(); }
    double log_between(double low, double high);
    int below(int count) { return static_cast<int>(unit() * count); }

private:
    std::mt19937_64 engine_;
};

/// What a random stack may absorb.
enum class Absorbs { anything, nothing };

/// One to five layers of index 1–2 (some equal, some nearly so), g −0.9 to 0.95, albedo 0, 1 or between, optical depth
/// 1e-6 to 1e4. The base is open.
optics::Stack random_stack(Dice& dice, Absorbs absorbs);

}  // namespace foretone::test
