// How many recipes the search judges in a second on one core where stains, glazes and toners are searched beside dyes.
// With dyes a way costs its solves once and every mix a polynomial; without them each recipe is a solve of its own.

#include <benchmark/benchmark.h>

#include "foretone/scene/library.hpp"
#include "foretone/search/engine.hpp"

namespace {

using namespace foretone;

search::Choices all_kinds(bool dyes) {
    search::Choices c;
    c.most_steps = search::longest_recipe;
    if (dyes)
        c.dye = search::DyeChoices{{"honey-dye", "russet-dye", "umber-dye", "raven-dye"}, 3,  6,
                                   {20, 40, 60, 80, 100, 120, 140, 160, 180, 200},        70, false};
    const auto coats = [](std::vector<std::string> use) {
        search::CoatChoices out;
        out.use = std::move(use);
        return out;
    };
    c.stain = coats({"walnut-stain", "umber-stain"});
    c.sealer = coats({"vinyl-sealer"});
    c.sealer->method = material::Method::spray;
    c.glaze = coats({"umber-glaze", "brown-black-glaze"});
    c.glaze->remainder = {0.02, 0.05, 0.1};
    c.toner = coats({"brown-toner"});
    c.toner->passes = {1, 2, 3};
    c.topcoat = coats({"nitrocellulose-lacquer"});
    c.topcoat->coats = {1, 2};
    c.topcoat->method = material::Method::spray;
    return c;
}

/// Argument: 1 with dyes, 0 without.
void examining_all_kinds(benchmark::State& state) {
    const scene::Library library;
    const material::Materials materials = library.materials();
    const auto space = search::make_space(all_kinds(state.range(0) == 1), materials);
    const auto solver = appearance::two_flux_solver();
    std::vector<color::Weights> weights;
    const std::vector<std::string> lights = {"D65", "A", "LED-4000"};
    for (const auto& id : lights)
        weights.push_back(color::make_weights(library.illuminant(id), library.observer("2deg")));
    const search::Engine engine(space, {materials, "white-oak", optics::Geometry::g45_0, solver},
                                search::aim_at(spectral::Spectrum::constant(0.15), lights, weights));
    search::Best best(100);
    std::size_t way = 0;
    std::int64_t recipes = 0;
    for (auto _ : state) {
        engine.examine(way, best);
        recipes += static_cast<std::int64_t>(space.recipes(way, way + 1));
        way = (way + 1) % space.ways.size();
    }
    state.SetItemsProcessed(recipes);
    state.counters["mixes"] = static_cast<double>(space.mixes.size());
    state.counters["ways"] = static_cast<double>(space.ways.size());
}
BENCHMARK(examining_all_kinds)->Arg(1)->Arg(0)->Unit(benchmark::kMillisecond);

}  // namespace
