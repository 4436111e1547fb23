// The loops over wavelengths on every instruction set, on 88 wavelengths as the solvers have them.

#include "../optics/kernels.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include <benchmark/benchmark.h>

#include "../search/chebyshev.hpp"

namespace {

using namespace foretone;
namespace kernels = optics::kernels;

constexpr std::size_t count = 88;

using Row = std::vector<double>;

Row row(double at_start, double per_step) {
    Row out(count);
    for (std::size_t k = 0; k < count; ++k) out[k] = at_start * std::exp(per_step * static_cast<double>(k));
    return out;
}

/// The instruction set asked for by the first argument, or a note that the machine has it not.
bool runs(benchmark::State& state) {
    if (state.range(0) <= static_cast<int>(base::widest_isa())) return true;
    state.SkipWithError("not on this machine");
    return false;
}

base::Isa isa(const benchmark::State& state) { return static_cast<base::Isa>(state.range(0)); }

void count_wavelengths(benchmark::State& state) {
    state.counters["per_wavelength"] =
        benchmark::Counter(count, benchmark::Counter::kIsIterationInvariantRate | benchmark::Counter::kInvert);
}

/// Arguments: instruction set, films crossed.
void kernel_films(benchmark::State& state) {
    if (!runs(state)) return;
    const optics::ClearFilms::Step steps[] = {{0, -1.6, 0.03, 0.01}, {1, -2.9, 0.2, 0.05}, {0, -4, 0.01, 0.02}};
    const optics::ClearFilms::Node node{1, 0.1, 0.02, 0, static_cast<std::size_t>(state.range(1))};
    const Row a = row(0.6, -0.03), b = row(0.3, -0.02);
    const double* depths[] = {a.data(), b.data()};
    Row out(count), scratch(2 * count);
    for (auto _ : state) {
        kernels::film_reflectance(isa(state), {&node, 1, steps}, depths, count, out.data(), scratch.data());
        benchmark::ClobberMemory();
    }
    count_wavelengths(state);
}

void kernel_film_panel(benchmark::State& state) {
    if (!runs(state)) return;
    const optics::ClearFilms::Step steps[] = {{0, -1.6, 0.03, 0.01}, {1, -2.9, 0.2, 0.05}};
    const optics::ClearFilms::Node node{1, 0.1, 0.02, 0, 2};
    const Row a = row(0.6, -0.03), b = row(0.3, -0.02);
    const double* depths[] = {a.data(), b.data()};
    Row above(count), below(count), through(count), scratch(6 * count);
    for (auto _ : state) {
        kernels::film_panel(isa(state), {&node, 1, steps}, depths, count, above.data(), below.data(), through.data(),
                            scratch.data());
        benchmark::ClobberMemory();
    }
    count_wavelengths(state);
}

void kernel_slab(benchmark::State& state) {
    if (!runs(state)) return;
    const Row absorption = row(2, -0.03), scattering = row(12, -0.01);
    Row below(count, 0.3), through(count, 0.5);
    for (auto _ : state) {
        std::fill(below.begin(), below.end(), 0.3);  // else it fades to denormal numbers, which are slow
        std::fill(through.begin(), through.end(), 0.5);
        kernels::slab_over(isa(state), absorption.data(), scattering.data(), 0.3, 0.02, count, below.data(),
                           through.data());
        benchmark::ClobberMemory();
    }
    count_wavelengths(state);
}

void kernel_seen_slab(benchmark::State& state) {
    if (!runs(state)) return;
    const Row absorption = row(2, -0.03), scattering = row(12, -0.01);
    std::vector<Row> c(6, Row(count, 0.3));
    const kernels::Channels channels{c[0].data(), c[1].data(), c[2].data(), c[3].data(), c[4].data(), c[5].data()};
    for (auto _ : state) {
        for (auto& channel : c) std::fill(channel.begin(), channel.end(), 0.3);
        kernels::slab_over_seen(isa(state), {absorption.data(), scattering.data(), 0.3, 0.02, 1.13, 1.0}, count,
                                channels);
        benchmark::ClobberMemory();
    }
    count_wavelengths(state);
}

void kernel_chebyshev(benchmark::State& state) {
    if (!runs(state)) return;
    constexpr std::size_t terms = 16;
    std::vector<double> coefficients(terms * count, 0.01), out(count);
    const std::vector<float> x(count, 0.3F);
    for (auto _ : state) {
        search::chebyshev::reflectance(isa(state), coefficients.data(), terms, x.data(), out.data());
        benchmark::ClobberMemory();
    }
    count_wavelengths(state);
}

void kernel_weighted_sum(benchmark::State& state) {
    if (!runs(state)) return;
    const Row w = row(0.1, -0.01), r = row(0.5, -0.02);
    for (auto _ : state) benchmark::DoNotOptimize(search::chebyshev::weighted_sum(isa(state), w.data(), r.data()));
    count_wavelengths(state);
}

}  // namespace

BENCHMARK(kernel_films)->ArgsProduct({{0, 1, 2}, {1, 2, 3}});
BENCHMARK(kernel_film_panel)->DenseRange(0, 2);
BENCHMARK(kernel_slab)->DenseRange(0, 2);
BENCHMARK(kernel_seen_slab)->DenseRange(0, 2);
BENCHMARK(kernel_chebyshev)->DenseRange(0, 2);
BENCHMARK(kernel_weighted_sum)->DenseRange(0, 2);
