// How long the fast solver and the gloss functions take.

#include <cmath>
#include <cstddef>
#include <vector>

#include <benchmark/benchmark.h>

#include "foretone/optics/gloss.hpp"
#include "foretone/optics/two_flux.hpp"

namespace {

using namespace foretone::optics;

constexpr std::size_t wavelengths = 81;  // 380–780 nm at 5 nm

/// A plausible spectrum: `at_start` falling exponentially with wavelength.
std::vector<double> falling(double at_start, double decay) {
    std::vector<double> out(wavelengths);
    for (std::size_t k = 0; k < wavelengths; ++k) out[k] = at_start * std::exp(-decay * static_cast<double>(k));
    return out;
}

/// Two clear absorbing films over two scattering zones over a base.
Stack finish(double n_upper, double n_lower, double n_wood) {
    Stack stack;
    stack.wavelengths = wavelengths;
    stack.layers = {{n_upper, 0.03, falling(6, 0.05), {}, 0},
                    {n_lower, 0.02, falling(20, 0.04), {}, 0},
                    {n_wood, 0.10, falling(8, 0.03), falling(20, 0.005), 0.3},
                    {n_wood, 0.20, falling(4, 0.03), falling(60, 0.005), 0.3}};
    stack.base.reflectance = falling(0.4, -0.005);
    return stack;
}

template <class Out, class Geometrical>
void solve(benchmark::State& state, const Stack& stack, const Geometrical& geometry) {
    TwoFluxSolver solver(stack, geometry);
    Out out;
    for (auto _ : state) {
        solver.solve(stack, out);
        benchmark::DoNotOptimize(out);
        benchmark::ClobberMemory();
    }
}

void same_index_45_0(benchmark::State& state) { solve<Radiance>(state, finish(1.5, 1.5, 1.5), Geometry::g45_0); }
void two_indices_45_0(benchmark::State& state) { solve<Radiance>(state, finish(1.48, 1.53, 1.53), Geometry::g45_0); }
void three_indices_45_0(benchmark::State& state) { solve<Radiance>(state, finish(1.48, 1.55, 1.52), Geometry::g45_0); }
void same_index_d8(benchmark::State& state) { solve<Radiance>(state, finish(1.5, 1.5, 1.5), Geometry::d8_included); }
void two_indices_d8(benchmark::State& state) {
    solve<Radiance>(state, finish(1.48, 1.53, 1.53), Geometry::d8_included);
}
void same_index_fluxes(benchmark::State& state) { solve<Fluxes>(state, finish(1.5, 1.5, 1.5), Light{}); }

void preparing(benchmark::State& state) {
    const Stack stack = finish(1.48, 1.53, 1.53);
    for (auto _ : state) {
        TwoFluxSolver solver(stack, Geometry::g45_0);
        benchmark::DoNotOptimize(solver);
    }
}

void roughness(benchmark::State& state) {
    double gloss = 10;
    for (auto _ : state) {
        gloss = gloss < 80 ? gloss + 0.1 : 10;
        benchmark::DoNotOptimize(roughness_from_gu60(gloss, 1.5));
    }
}

void gloss_60(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(gloss_units(0.1, 1.5, 60));
}

void surface_excluded(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(surface_radiance(0.1, 1.5, Geometry::d8_excluded));
}

BENCHMARK(same_index_45_0)->Unit(benchmark::kMicrosecond);
BENCHMARK(two_indices_45_0)->Unit(benchmark::kMicrosecond);
BENCHMARK(three_indices_45_0)->Unit(benchmark::kMicrosecond);
BENCHMARK(same_index_d8)->Unit(benchmark::kMicrosecond);
BENCHMARK(two_indices_d8)->Unit(benchmark::kMicrosecond);
BENCHMARK(same_index_fluxes)->Unit(benchmark::kMicrosecond);
BENCHMARK(preparing)->Unit(benchmark::kMicrosecond);
BENCHMARK(roughness)->Unit(benchmark::kMicrosecond);
BENCHMARK(gloss_60)->Unit(benchmark::kMicrosecond);
BENCHMARK(surface_excluded)->Unit(benchmark::kMicrosecond);

}  // namespace
