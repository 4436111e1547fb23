// Both solvers side by side: cost a stack and a wavelength, against streams and against the number of layers.

#include <benchmark/benchmark.h>

#include <cmath>
#include <cstddef>
#include <vector>

#include "foretone/optics/angular.hpp"
#include "foretone/optics/two_flux.hpp"

namespace {

using namespace foretone::optics;

/// A spectrum of `count` values falling from `at_start`.
std::vector<double> falling(double at_start, std::size_t count) {
    std::vector<double> out(count);
    for (std::size_t k = 0; k < count; ++k) out[k] = at_start * std::exp(-0.03 * static_cast<double>(k));
    return out;
}

/// `layers` layers under air: a clear film of n 1.48 and one of 1.52, the rest scattering zones of 1.52, over a base.
Stack boards(std::size_t layers, std::size_t wavelengths) {
    Stack stack;
    stack.wavelengths = wavelengths;
    for (std::size_t i = 0; i < layers; ++i) {
        if (i < 2)
            stack.layers.push_back({i == 0 ? 1.48 : 1.52, 0.03, falling(6, wavelengths), {}, 0});
        else
            stack.layers.push_back({1.52, 0.06, falling(8, wavelengths), falling(12, wavelengths), 0});
    }
    stack.base.reflectance = falling(0.4, wavelengths);
    return stack;
}

void count(benchmark::State& state, std::size_t wavelengths) {
    state.counters["per_wavelength"] = benchmark::Counter(
        static_cast<double>(wavelengths), benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// Arguments: streams a hemisphere, layers.
void angular_stack(benchmark::State& state) {
    const Stack stack = boards(static_cast<std::size_t>(state.range(1)), 81);
    for (auto _ : state)
        benchmark::DoNotOptimize(angular(stack, Geometry::g45_0, {static_cast<int>(state.range(0)), false}));
    count(state, 81);
}

/// Argument: layers.
void two_flux_stack(benchmark::State& state) {
    const Stack stack = boards(static_cast<std::size_t>(state.range(0)), 81);
    TwoFluxSolver solver(stack, Geometry::g45_0);
    Radiance out;
    for (auto _ : state) {
        solver.solve(stack, out);
        benchmark::DoNotOptimize(out);
        benchmark::ClobberMemory();
    }
    count(state, 81);
}

/// Argument: wavelengths.
void two_flux_wavelengths(benchmark::State& state) {
    const auto wavelengths = static_cast<std::size_t>(state.range(0));
    const Stack stack = boards(4, wavelengths);
    TwoFluxSolver solver(stack, Geometry::g45_0);
    Radiance out;
    for (auto _ : state) {
        solver.solve(stack, out);
        benchmark::DoNotOptimize(out);
        benchmark::ClobberMemory();
    }
    count(state, wavelengths);
}

}  // namespace

BENCHMARK(angular_stack)->ArgsProduct({{4, 6, 8, 12, 16, 24, 32}, {5}})->Unit(benchmark::kMillisecond);
BENCHMARK(angular_stack)->ArgsProduct({{16}, {1, 2, 3, 4, 6, 8}})->Unit(benchmark::kMillisecond);
BENCHMARK(two_flux_stack)->DenseRange(1, 8)->Unit(benchmark::kMicrosecond);
BENCHMARK(two_flux_wavelengths)->Arg(1)->Arg(9)->Arg(31)->Arg(81)->Arg(401)->Unit(benchmark::kMicrosecond);
