#pragma once
/// What a recipe should look like, and how far from it a reflectance is.

#include <string>
#include <vector>

#include "foretone/color/lab.hpp"
#include "foretone/color/xyz.hpp"

namespace foretone::search {

/// The target under one light.
struct AimLight {
    std::string light;
    color::Weights weights;
    color::Lab lab;
};

/// The target under every light it is judged by; at least one. A match is as good as its worst light.
struct Aim {
    std::vector<AimLight> lights;
};

/// The aim of a reflectance.
Aim aim_at(const spectral::Spectrum& reflectance, const std::vector<std::string>& lights,
           const std::vector<color::Weights>& weights);

/// ΔE00 to the target under each light, and the largest of them.
std::vector<double> differences(const Aim& aim, const spectral::Spectrum& reflectance);
double worst_difference(const Aim& aim, const spectral::Spectrum& reflectance);

}  // namespace foretone::search
