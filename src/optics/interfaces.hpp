#pragma once
// What indices alone decide of a run of clear films, kept for the next stack that has them.

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

#include "foretone/optics/clear_films.hpp"

namespace foretone::optics {

/// A run's nodes over angle, and those of up to two rays at given cosines in the medium above it.
struct Interfaces {
    ClearFilms films;
    ClearBeam beam, eye;
    double cone = 0;  ///< cone_weight of the medium below
};

/// Cosines above a run of the beam and of the eye's direction; 0: there is none.
struct RayCosines {
    double beam = 0, eye = 0;
    bool operator==(const RayCosines&) const = default;
};

/// The runs last asked for. One that is not among them is worked out in the place of the one not asked for longest:
/// draws of one world, coats of one schedule and recipes of one search share their runs.
class InterfaceShelf {
public:
    /// `media` from above down, both neighbours included; throws as ClearFilms and ClearBeam do. Valid until the next
    /// call.
    const Interfaces& of(std::span<const double> media, RayCosines rays);

private:
    struct Place {
        std::vector<double> media;
        RayCosines rays;
        std::uint64_t asked = 0;
        Interfaces interfaces;
    };
    std::array<Place, 8> places_;
    std::uint64_t now_ = 0;
};

}  // namespace foretone::optics
