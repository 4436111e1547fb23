#pragma once
/// Examines every recipe of a space against an aim.

#include <functional>
#include <memory>
#include <optional>

#include "foretone/search/aim.hpp"
#include "foretone/search/best.hpp"
#include "foretone/search/finished.hpp"

namespace foretone::search {

struct EngineOptions {
    /// Solves for one way over which the dye mixes are interpolated; a space with no more mixes than this is solved
    /// recipe by recipe. At 16 a finished color is within ΔE00 0.01 of a direct solve, whatever the dye, up to the
    /// strongest stock undiluted.
    int nodes = 16;
    /// Recipes whose ΔE00 between the palest and the darkest tenth of the board, by the wood's blotch and under the
    /// first light, is above this are dropped. It triples the solves of a way that has a recipe near the aim.
    std::optional<double> most_uneven{};
};

/// Made once for a space, used from any number of threads.
///
/// A dye without binder goes onto open wood and changes nothing but its zone's absorbance a(λ): film, fill and soaking
/// of all that follows stay as they are. So for one way to oil, seal and topcoat the finished reflectance at a
/// wavelength is a smooth, falling function of the one number a, whatever solver works it out. It is solved at `nodes`
/// values of a — at each wavelength spread between 0 and the largest that any mix has there — and the polynomial
/// through them gives every mix. Undyed wood has no dyed zone at all and is solved by itself. Nothing is left out: a
/// recipe is dropped without its exact ΔE00 only if ΔE00 ≥ |ΔL*|/S_L already exceeds all that are kept.
class Engine {
public:
    /// Throws schedule::Fault for a step that cannot be, std::invalid_argument for an aim without lights.
    Engine(const Space& space, const Setting& setting, Aim aim, EngineOptions options = {});
    ~Engine();
    Engine(Engine&&) noexcept;

    /// Examines all recipes of one way. Throws std::out_of_range for a way that is not there.
    void examine(std::size_t way, Best& best) const;

    /// Examines ways first … last − 1 while `go_on` says so; returns the first way not examined.
    std::size_t examine(std::size_t first, std::size_t last, Best& best, const std::function<bool()>& go_on) const;

    /// The reflectance that recipe `number` is judged by.
    spectral::Spectrum reflectance(std::uint64_t number) const;

private:
    struct Prepared;
    class Unevenness;
    std::unique_ptr<Prepared> prepared_;
};

}  // namespace foretone::search
