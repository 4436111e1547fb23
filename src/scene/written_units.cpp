#include "foretone/scene/written_units.hpp"

#include <algorithm>
#include <array>

#include "written_units.hpp"

namespace foretone::scene {
namespace {

struct UnitKeys {
    int us = 0, metric = 0;

    void walk(const toml::node& node) {
        constexpr std::array<std::string_view, 4> us_keys = {"wet_mil", "coverage_ft2_per_gal", "oz_per_qt", "fl_oz"};
        constexpr std::array<std::string_view, 6> metric_keys = {"wet_um",  "wet_g_per_m2", "coverage_m2_per_l",
                                                                 "g_per_l", "ml",           "g"};
        const auto has = [](const auto& keys, std::string_view key) {
            return std::find(keys.begin(), keys.end(), key) != keys.end();
        };
        if (const auto* table = node.as_table())
            for (const auto& [key, value] : *table) {
                us += has(us_keys, key.str());
                metric += has(metric_keys, key.str());
                walk(value);
            }
        if (const auto* list = node.as_array())
            for (const auto& item : *list) walk(item);
    }
};

}  // namespace

std::optional<schedule::UnitSystem> written_units(const toml::table& root) {
    UnitKeys keys;
    for (const char* part : {"finish", "search", "prices"})
        if (const auto* node = root.get(part)) keys.walk(*node);
    if (keys.us == keys.metric) return std::nullopt;
    return keys.us > keys.metric ? schedule::UnitSystem::us : schedule::UnitSystem::metric;
}

schedule::UnitSystem units_of(const Scene& scene) {
    return scene.look.units.value_or(scene.written_in.value_or(schedule::UnitSystem::metric));
}

}  // namespace foretone::scene
