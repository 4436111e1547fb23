// How many recipes the search judges in a second on one core: one way to oil, seal and topcoat over all dye mixes.

#include <cmath>

#include <benchmark/benchmark.h>

#include "foretone/scene/library.hpp"
#include "foretone/search/engine.hpp"

namespace {

using namespace foretone;

void examining(benchmark::State& state) {
    const scene::Library library;
    const material::Materials materials = library.materials();
    search::Choices c;
    c.dye = search::DyeChoices{{"honey-dye", "russet-dye", "umber-dye", "raven-dye"}, 3,  6,
                               {20, 40, 60, 80, 100, 120, 140, 160, 180, 200},        70, false};
    c.sealer = search::CoatChoices{{"orange-shellac"}, {1, 2}, {1, 2, 3}, material::Method::spray, {}, {}, {}, false};
    c.topcoat = search::CoatChoices{{"waterborne-acrylic"}, {}, {2}, material::Method::spray, {30}, {}, {}, false};
    const auto space = search::make_space(c, materials);
    const auto solver = appearance::two_flux_solver();
    std::vector<color::Weights> weights;
    const std::vector<std::string> lights = {"D65", "A", "LED-4000"};
    for (const auto& id : lights)
        weights.push_back(color::make_weights(library.illuminant(id), library.observer("2deg")));
    const search::Engine engine(space, {materials, "ash", optics::Geometry::g45_0, solver},
                                search::aim_at(spectral::Spectrum::constant(0.25), lights, weights));
    search::Best best(100);
    std::size_t way = 0;
    std::int64_t recipes = 0;
    for (auto _ : state) {
        engine.examine(way, best);
        recipes += static_cast<std::int64_t>(space.mixes.size());
        way = (way + 1) % space.ways.size();
    }
    state.SetItemsProcessed(recipes);
}
BENCHMARK(examining)->Unit(benchmark::kMillisecond);

}  // namespace
