#pragma once
/// The two standard tables every color rests on: how a light emits and how a standard observer sees.

#include <string>

#include "foretone/spectral/sampled.hpp"

namespace foretone::spectral {

/// Relative spectral power of a light; the scale is free.
struct Illuminant {
    std::string id;
    Sampled power;
};

/// Color-matching functions of a CIE standard observer, 1 nm steps.
struct Observer {
    std::string id;  ///< "2deg" or "10deg"
    Sampled x, y, z;
};

}  // namespace foretone::spectral
