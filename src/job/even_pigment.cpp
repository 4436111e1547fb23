#include "even_pigment.hpp"

#include "foretone/schedule/deposit.hpp"

namespace foretone::job {

std::vector<scene::Problem> even_pigment(const scene::Scene& scene, std::size_t finish) {
    std::vector<scene::Problem> out;
    const auto& steps = scene.finishes.at(finish).steps;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        const auto d = schedule::deposit(steps[i], scene.shelf);
        if (!d.has_pigment || !(d.wiped || steps[i].method == material::Method::wipe)) continue;
        out.push_back({"pigment-even", scene.places.at(finish).at(i).step,
                       "step " + std::to_string(i + 1) +
                           ": pigment is reckoned as an even film; a stain that is wiped off leaves more grain"});
    }
    return out;
}

}  // namespace foretone::job
