#pragma once
/// Pairs that match under one light and not under another.

#include <cstddef>
#include <string>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::color {

/// A light as a pair is judged under it.
struct ViewingLight {
    std::string id;
    Weights weights;
};

/// A pair under one light.
struct PairUnderLight {
    std::string light;
    Lab standard, sample;
    double de00 = 0;           ///< ΔE00 of the pair as it is
    double special_index = 0;  ///< ΔE00 after the pair was made to match under the reference light; 0 there
};

/// A pair under all lights, in the order given.
struct PairUnderLights {
    std::vector<PairUnderLight> lights;
    std::size_t worst = 0;        ///< where `de00` is largest (the first of equals)
    std::size_t worst_index = 0;  ///< where `special_index` is largest (the first of equals)
};

/// Special metamerism index, change in illuminant (CIE 15:2018 9.2; ISO 18314-4): the sample's X, Y and Z under `test`
/// are multiplied by standard/sample of the same value under `reference`, so that a pair which does not quite match
/// under the reference is not blamed on the light; then ΔE00 under `test`. Throws std::invalid_argument if the sample's
/// X, Y or Z under `reference` is not above 0.
double special_metamerism_index(const spectral::Spectrum& standard, const spectral::Spectrum& sample,
                                const Weights& reference, const Weights& test);

/// `standard` and `sample` under each of `lights`; the first is the reference light. Throws std::invalid_argument if
/// there is none, or as `special_metamerism_index` does.
PairUnderLights under_lights(const spectral::Spectrum& standard, const spectral::Spectrum& sample,
                             const std::vector<ViewingLight>& lights);

}  // namespace foretone::color
