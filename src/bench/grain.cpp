// How long the maps of a board take: 2400 × 1600 pixels, on all cores and on one.

#include <benchmark/benchmark.h>

#include "foretone/grain/grain.hpp"
#include "foretone/scene/library.hpp"

namespace {

using namespace foretone;

void board_maps(benchmark::State& state, const char* wood, grain::Cut cut, double mm_per_px, int threads) {
    const scene::Library library;
    const auto m = library.material(wood);
    for (auto _ : state) {
        auto maps = grain::grain(std::get<material::Wood>(m.data), cut, 2400, 1600, mm_per_px, 1, threads);
        benchmark::DoNotOptimize(maps.shade.data());
    }
    state.SetItemsProcessed(state.iterations() * 2400 * 1600);
}

BENCHMARK_CAPTURE(board_maps, pine_flat, "pine", grain::Cut::flat, 0.15, 0)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(board_maps, white_oak_quarter, "white-oak", grain::Cut::quarter, 0.15, 0)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(board_maps, hard_maple_flat, "hard-maple", grain::Cut::flat, 0.15, 0)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(board_maps, hard_maple_flat_one_core, "hard-maple", grain::Cut::flat, 0.15, 1)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();
BENCHMARK_CAPTURE(board_maps, beech_flat, "beech", grain::Cut::flat, 0.25, 0)
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
