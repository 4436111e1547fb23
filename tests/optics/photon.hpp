#pragma once
/// A second opinion on the angular solver: single photons followed through the stack. Slow, noisy, and sharing nothing
/// with it but the stack: Fresnel's formulas are written out again.

#include <cstdint>

#include "foretone/optics/stack.hpp"

namespace foretone::test {

/// A mean and its standard error.
struct Estimate {
    double mean = 0;
    double error = 0;
};

struct PhotonResult {
    Estimate reflectance;    ///< hemispherical, surface included
    Estimate transmittance;  ///< through an open base
    Estimate normal;         ///< body radiance factor seen along the normal
};

/// Follows `photons` photons through the stack at its first wavelength.
PhotonResult follow_photons(const optics::Stack& stack, const optics::Light& light, int photons, std::uint64_t seed);

}  // namespace foretone::test
