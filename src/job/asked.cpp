#include "asked.hpp"

#include <algorithm>
#include <vector>

namespace foretone::job {

std::size_t asked_finish(const scene::Scene& scene, const std::string& name, const std::string& purpose) {
    if (scene.finishes.empty())
        throw scene::InputError("finish-empty", {scene.file, 1, 1},
                                "there is no finish to " + purpose + ": add [[finish]] with its steps");
    if (name.empty()) {
        for (std::size_t i = 0; i < scene.finishes.size(); ++i)
            if (!scene.target || scene.finishes[i].name != scene.target->finish) return i;
        return 0;
    }
    std::vector<std::string> names;
    for (const auto& f : scene.finishes) names.push_back(f.name);
    const auto it = std::find(names.begin(), names.end(), name);
    if (it == names.end())
        throw scene::InputError("finish-unknown", {scene.file},
                                "there is no finish \"" + name + "\"." + scene::suggestion(name, names));
    return static_cast<std::size_t>(it - names.begin());
}

}  // namespace foretone::job
