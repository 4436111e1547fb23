#include "foretone/search/aim.hpp"

#include <algorithm>

namespace foretone::search {
namespace {

color::Lab lab_of(const spectral::Spectrum& reflectance, const color::Weights& w) {
    return color::to_lab(color::xyz(reflectance, w), w.white);
}

}  // namespace

Aim aim_at(const spectral::Spectrum& reflectance, const std::vector<std::string>& lights,
           const std::vector<color::Weights>& weights) {
    Aim aim;
    for (std::size_t l = 0; l < lights.size(); ++l)
        aim.lights.push_back({lights[l], weights[l], lab_of(reflectance, weights[l])});
    return aim;
}

std::vector<double> differences(const Aim& aim, const spectral::Spectrum& reflectance) {
    std::vector<double> out;
    for (const auto& light : aim.lights)
        out.push_back(color::delta_e_00(light.lab, lab_of(reflectance, light.weights)));
    return out;
}

double worst_difference(const Aim& aim, const spectral::Spectrum& reflectance) {
    const auto all = differences(aim, reflectance);
    return *std::max_element(all.begin(), all.end());
}

}  // namespace foretone::search
