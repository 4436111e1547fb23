#include "required.hpp"

#include <algorithm>

#include "foretone/scene/problem.hpp"

namespace foretone::job {

void require_materials(const scene::Library& library, const std::set<std::string>& named, const std::string& what) {
    const auto there = library.ids();
    std::vector<scene::Problem> lacking;
    for (const auto& id : named)
        if (std::find(there.begin(), there.end(), id) == there.end())
            lacking.push_back(
                {"material-unknown", {"library"}, "there is no material '" + id + "', which " + what + " is about"});
    if (!lacking.empty()) throw scene::InputError(std::move(lacking));
}

}  // namespace foretone::job
