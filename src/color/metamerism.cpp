// A pair of reflectances under several lights.
//
// Symbols: X Y Z with index s (standard), p (sample), r (reference light), t (test light).
//   corrected sample: X' = X_pt · X_sr/X_pr, the same for Y and Z; index = ΔE00(standard, corrected) under the test
//   light.
// The multiplicative correction keeps a black sample black and never makes a negative value, which the additive one
// can.

#include "foretone/color/metamerism.hpp"

#include <stdexcept>

#include "foretone/base/number.hpp"

namespace foretone::color {
namespace {

double factor(double standard, double sample, char channel) {
    if (!(sample > 0)) {
        throw std::invalid_argument(std::string("metamerism: ") + channel +
                                    " of the sample under the reference light is " + base::shortest(sample) +
                                    ", not above 0");
    }
    return standard / sample;
}

}  // namespace

double special_metamerism_index(const spectral::Spectrum& standard, const spectral::Spectrum& sample,
                                const Weights& reference, const Weights& test) {
    const Xyz sr = xyz(standard, reference), pr = xyz(sample, reference);
    const Xyz st = xyz(standard, test), pt = xyz(sample, test);
    const Xyz corrected{pt.x * factor(sr.x, pr.x, 'X'), pt.y * factor(sr.y, pr.y, 'Y'), pt.z * factor(sr.z, pr.z, 'Z')};
    return delta_e_00(to_lab(st, test.white), to_lab(corrected, test.white));
}

PairUnderLights under_lights(const spectral::Spectrum& standard, const spectral::Spectrum& sample,
                             const std::vector<ViewingLight>& lights) {
    if (lights.empty()) throw std::invalid_argument("metamerism: no light given; the first one is the reference");
    PairUnderLights out;
    for (const auto& light : lights) {
        PairUnderLight p;
        p.light = light.id;
        p.standard = to_lab(xyz(standard, light.weights), light.weights.white);
        p.sample = to_lab(xyz(sample, light.weights), light.weights.white);
        p.de00 = delta_e_00(p.standard, p.sample);
        p.special_index = special_metamerism_index(standard, sample, lights.front().weights, light.weights);
        out.lights.push_back(p);
        if (p.de00 > out.lights[out.worst].de00) out.worst = out.lights.size() - 1;
        if (p.special_index > out.lights[out.worst_index].special_index) out.worst_index = out.lights.size() - 1;
    }
    return out;
}

}  // namespace foretone::color
