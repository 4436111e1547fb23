#include "target_times.hpp"

namespace foretone::job {

std::vector<material::AgeSpan> recipe_times(const scene::Scene& scene) {
    if (!scene.target || !scene.target->judge_at) return {};
    return {{scene.look.exposure, scene.target->judge_at->days}};
}

std::vector<material::AgeSpan> target_times(const scene::Scene& scene) {
    auto out = recipe_times(scene);
    if (scene.target && scene.target->aged)
        out.insert(out.begin(), material::AgeSpan{scene.look.exposure, scene.target->aged->days});
    return out;
}

}  // namespace foretone::job
