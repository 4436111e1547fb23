// The time axis: a finished board new, and after a year by a window. An added time is a board of other materials, so it
// costs one more solve and the little that ages them.

#include <benchmark/benchmark.h>

#include "foretone/appearance/ageing.hpp"
#include "foretone/scene/library.hpp"
#include "foretone/search/finished.hpp"

namespace {

using namespace foretone;

/// Dye, shellac, waterborne on cherry, and what it is made of.
struct Job {
    material::Materials materials;
    schedule::Finish finish;

    Job() {
        const scene::Library library;
        for (const char* id : {"cherry", "water", "alcohol", "orange-shellac", "waterborne-acrylic"})
            materials[id] = library.material(id);
        for (const auto& id : library.ids(material::Kind::dye)) materials[id] = library.material(id);
        const auto add = [&](std::vector<schedule::Part> mix, int coats) {
            schedule::Step step;
            step.mix = std::move(mix);
            step.coats = coats;
            finish.steps.push_back(step);
        };
        add({{"honey-dye", schedule::Amount::parts, 1}, {"water", schedule::Amount::parts, 9}}, 1);
        add({{"orange-shellac", schedule::Amount::parts, 1}}, 2);
        add({{"waterborne-acrylic", schedule::Amount::parts, 1}}, 2);
    }

    search::Setting setting(const appearance::Solver& solver, std::vector<material::AgeSpan> after) const {
        return {materials, "cherry", optics::Geometry::g45_0, solver, std::move(after)};
    }
};

/// Argument: years by a window; 0 new.
void finished_after_years(benchmark::State& state) {
    const Job job;
    const auto solver = appearance::two_flux_solver();
    std::vector<material::AgeSpan> after;
    if (state.range(0) > 0)
        after.push_back({material::Stands::window, material::days_a_year * static_cast<double>(state.range(0))});
    const auto setting = job.setting(solver, after);
    for (auto _ : state) benchmark::DoNotOptimize(search::finished(setting, job.finish));
}
BENCHMARK(finished_after_years)->Arg(0)->Arg(1)->Arg(5)->Unit(benchmark::kMicrosecond);

/// The same without the copies: what a search over many recipes of one age costs (materials aged once).
void finished_of_aged_materials(benchmark::State& state) {
    const Job job;
    const auto solver = appearance::two_flux_solver();
    const std::vector<material::AgeSpan> year = {{material::Stands::window, material::days_a_year}};
    const auto old = appearance::aged(job.materials, "cherry", job.finish, year);
    const search::Setting setting{old.materials, old.wood, optics::Geometry::g45_0, solver};
    for (auto _ : state) benchmark::DoNotOptimize(search::finished(setting, old.finish));
}
BENCHMARK(finished_of_aged_materials)->Unit(benchmark::kMicrosecond);

}  // namespace
