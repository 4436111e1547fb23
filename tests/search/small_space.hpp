#pragma once
/// Spaces over the library's materials and a seeded choice among their recipes.

#include <random>

#include "foretone/search/engine.hpp"
#include "support/standards.hpp"
#include "support/whole_library.hpp"

namespace foretone::test {

/// Materials: all that the spaces below use, and the wood.
inline material::Materials materials_for(const std::string& wood) {
    material::Materials materials;
    for (const auto& id : library().ids()) materials[id] = library().material(id);
    materials.at(wood);
    return materials;
}

/// Number in 0 … count − 1.
inline std::uint64_t below(std::mt19937_64& random, std::uint64_t count) { return random() % count; }

/// 3 stocks two at once, two oils, two shellacs, two topcoats: some thousand recipes.
inline search::Choices small_choices() {
    search::Choices c;
    c.dye = search::DyeChoices{{"honey-dye", "russet-dye", "umber-dye"}, 2, 3, {4, 9, 19, 39}, 70, false};
    c.oil = search::CoatChoices{{"boiled-linseed"}, {}, {1}, material::Method::wipe, {}, {}, {}, false};
    c.sealer = search::CoatChoices{{"orange-shellac"}, {1, 2}, {1, 2}, material::Method::spray, {}, {}, {}, false};
    c.topcoat = search::CoatChoices{
        {"waterborne-acrylic", "oil-varnish"}, {}, {2}, material::Method::brush, {25}, {}, {}, false};
    return c;
}

inline std::vector<color::Weights> weights(const std::vector<std::string>& lights) {
    std::vector<color::Weights> out;
    for (const auto& id : lights) out.push_back(color::make_weights(light(id), observer("2deg")));
    return out;
}

/// All recipes examined.
inline search::Best examined(const search::Engine& engine, const search::Space& space, std::size_t room) {
    search::Best best(room);
    engine.examine(0, space.ways.size(), best, [] { return true; });
    return best;
}

}  // namespace foretone::test
